import type { NextRequest } from "next/server";
import { serveBody } from "@/app/_edge/serve-body";
import { serveRead } from "@/app/_edge/serve-read";
import { changeFacility } from "@/lib/auth/sign-in";
import { done, refused } from "@/lib/domain/outcome";
import { readSession } from "@/lib/queries/session";
import { changeFacilityRequest } from "@/lib/schemas/set-up";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "session", readSession);

/** Moves the session to another facility in which the person has a role. */
export const POST = (request: NextRequest): Promise<Response> =>
  serveBody(request, changeFacilityRequest, async ({ facilityId }, actor) => {
    const known = actor.facilities.some(({ id }) => id === facilityId);
    if (!known || !actor.sessionId) return refused("not-found", "You have no role in that facility.", "facilityId");
    const session = {
      sessionId: actor.sessionId,
      personId: actor.personId,
      organisationId: actor.organisationId,
      facilityId: actor.facility.id,
    };
    return (await changeFacility(session, facilityId))
      ? done({ facilityId })
      : refused("sign-in-required", "Your session has ended. Sign in again.");
  });
