import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readPastDay } from "@/lib/queries/as-of";
import { morningQuery } from "@/lib/schemas/as-of";
import { localDate } from "@/lib/units/time";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, morningQuery, "day", (actor, { date }) =>
    readPastDay(actor, date === undefined ? null : localDate(date)),
  );
