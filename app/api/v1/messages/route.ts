import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readMessages } from "@/lib/queries/messages";

export const GET = (request: NextRequest): Promise<Response> =>
  serveRead(request, "facility", (actor) => readMessages(actor));
