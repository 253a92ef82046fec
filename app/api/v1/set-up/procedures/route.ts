import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readProcedures } from "@/lib/queries/procedures";

export const GET = (request: NextRequest): Promise<Response> =>
  serveRead(request, "list of procedures", readProcedures);
