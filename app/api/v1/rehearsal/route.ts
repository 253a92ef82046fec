import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readRehearsal } from "@/lib/queries/rehearsal";
import { rehearsalQuery } from "@/lib/schemas/rehearsal";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, rehearsalQuery, "daily check to practise", readRehearsal);
