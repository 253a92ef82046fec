import type { NextRequest } from "next/server";
import { serveBody } from "@/app/_edge/serve-body";
import { forgetSession } from "@/lib/auth/session";
import { addFacility } from "@/lib/commands/found";
import { appSurroundings } from "@/lib/commands/surroundings";
import { systemClock } from "@/lib/live/clock";
import { addFacilityRequest } from "@/lib/schemas/set-up";

export const serveNewFacility = (request: NextRequest): Promise<Response> =>
  serveBody(request, addFacilityRequest, async (input, actor) => {
    const outcome = await addFacility(appSurroundings(systemClock()), input, actor);
    if (actor.sessionId) forgetSession(actor.sessionId);
    return outcome;
  });
