import type { NextRequest } from "next/server";
import { serveOutcome } from "@/app/_edge/serve-outcome";
import { readWhatIf } from "@/lib/queries/what-if";
import { whatIfQuery } from "@/lib/schemas/what-if";

export const GET = (request: NextRequest): Promise<Response> =>
  serveOutcome(request, whatIfQuery, (actor, query) => readWhatIf(actor, query));
