import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readReasons } from "@/lib/queries/reasons";
import { completionQuery } from "@/lib/schemas/report";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, completionQuery, "report", readReasons);
