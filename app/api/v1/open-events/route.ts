import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readOpenEvents } from "@/lib/queries/events";

export const GET = (request: NextRequest): Promise<Response> =>
  serveRead(request, "facility", (actor) => readOpenEvents(actor));
