import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readWeek } from "@/lib/queries/set-up";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "week", readWeek);
