import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readShiftSheet } from "@/lib/queries/shift-sheet";
import { shiftQuery } from "@/lib/schemas/report-shift";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, shiftQuery, "report", readShiftSheet);
