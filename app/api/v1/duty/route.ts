import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readDuty } from "@/lib/queries/duty";
import { dutyQuery } from "@/lib/schemas/duty";

export const GET = (request: NextRequest): Promise<Response> => serveQuery(request, dutyQuery, "roster", readDuty);
