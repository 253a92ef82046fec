import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readDevices } from "@/lib/queries/set-up";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "list of wall devices", readDevices);
