import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readHeads } from "@/lib/queries/history-export";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "tree head", readHeads);
