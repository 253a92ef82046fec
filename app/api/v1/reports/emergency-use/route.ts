import type { NextRequest } from "next/server";
import { serveQuery } from "@/app/_edge/serve-read";
import { readEmergencies } from "@/lib/queries/emergencies";
import { emergencyQuery } from "@/lib/schemas/moves";

export const GET = (request: NextRequest): Promise<Response> =>
  serveQuery(request, emergencyQuery, "report", readEmergencies);
