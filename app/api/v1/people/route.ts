import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readPeople } from "@/lib/queries/people";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "list of people", readPeople);
