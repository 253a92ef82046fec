import { config } from "zod";

// The page's security policy forbids code from text, and zod would try; only the browser gives up that speed.
if (typeof window !== "undefined") config({ jitless: true });
