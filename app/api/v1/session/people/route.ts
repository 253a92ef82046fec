import type { NextRequest } from "next/server";
import { signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import { BROWSER_COOKIE, browserHash } from "@/lib/auth/browser-cookie";
import { peopleOnDevice } from "@/lib/auth/lock";
import type { OnDeviceView } from "@/lib/schemas/access";

/** Whom this browser's PIN pad offers: the people whose sessions are open in it. Asked while it is locked, too. */
export async function GET(request: NextRequest): Promise<Response> {
  const actor = await actorOf(request);
  if (!actor?.sessionId) return signInRequired();
  const people = await peopleOnDevice(browserHash(request.cookies.get(BROWSER_COOKIE)?.value));
  const view: OnDeviceView = {
    people: people.map(({ userId, name, facilityName, hasPin, personId }) => ({
      userId,
      name,
      facility: facilityName,
      hasPin,
      here: personId === actor.personId,
    })),
  };
  return Response.json(view, { headers: { "cache-control": "no-store" } });
}
