import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readOpenChecks } from "@/lib/queries/open-checks";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "list of checks", readOpenChecks);
