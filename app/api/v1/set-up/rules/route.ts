import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readRules } from "@/lib/queries/rules";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "list of rules", readRules);
