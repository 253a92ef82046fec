import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readPickList } from "@/lib/queries/pick-list";
import { pickListQuery } from "@/lib/schemas/work";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, pickListQuery, "pick list", readPickList);
