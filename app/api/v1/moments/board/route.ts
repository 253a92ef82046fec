import type { NextRequest } from "next/server";
import { serveOutcome } from "@/app/_edge/serve-outcome";
import { readPastBoard } from "@/lib/queries/as-of";
import { momentQuery } from "@/lib/schemas/as-of";

export const GET = (request: NextRequest): Promise<Response> =>
  serveOutcome(request, momentQuery, (actor, { at }) => readPastBoard(actor, at));
