import { z } from "zod";
import { SITE_WORDS } from "@/lib/domain/site/model";

/** The words in force at a site: its own, and its scheme's for what it did not choose. */
export const siteWords = z.strictObject({
  anesthesia: z.enum(SITE_WORDS.anesthesia),
  wasteGas: z.enum(SITE_WORDS.wasteGas),
  suite: z.enum(SITE_WORDS.suite),
  room: z.enum(SITE_WORDS.room),
  check: z.enum(SITE_WORDS.check),
});
