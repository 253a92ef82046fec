import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readCompletion } from "@/lib/queries/completion";
import { completionQuery } from "@/lib/schemas/report";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, completionQuery, "report", readCompletion);
