import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readHistory } from "@/lib/queries/history";
import { historyQuery } from "@/lib/schemas/history";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, historyQuery, "history", readHistory);
