import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readAllowances } from "@/lib/queries/allowances";

export const GET = (request: NextRequest): Promise<Response> =>
  serveRead(request, "facility", (actor) => readAllowances(actor));
