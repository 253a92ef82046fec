import { cookies, headers } from "next/headers";
import { actorOfDevice, DEVICE_COOKIE } from "@/lib/auth/device";
import { actorOfSession } from "@/lib/auth/session";
import { cookieName, sessionIdOf } from "@/lib/auth/token";
import { systemClock } from "@/lib/live/clock";

/** Whoever may look at a facility's wall. It carries no name: what a wall shows must not depend on who opened it. */
export interface WallViewer {
  readonly organisationId: string;
  readonly facilityId: string;
  /** What its stream is ended by when the permission ends. */
  readonly streamKey: string;
}

/** A registered wall device, or a signed-in person; null for everybody else. */
export async function wallViewer(): Promise<WallViewer | null> {
  return (await wallDevice()) ?? (await wallPerson());
}

/** The device comes first: a wall on which somebody once signed in shows the wall's own facility. */
async function wallDevice(): Promise<WallViewer | null> {
  const device = await actorOfDevice((await cookies()).get(DEVICE_COOKIE)?.value, () => systemClock().now());
  return device && { organisationId: device.organisationId, facilityId: device.facilityId, streamKey: device.deviceId };
}

async function wallPerson(): Promise<WallViewer | null> {
  const secure = (await headers()).get("x-forwarded-proto") === "https";
  const sessionId = await sessionIdOf((await cookies()).get(cookieName(secure))?.value);
  const actor = sessionId ? await actorOfSession(sessionId) : null;
  if (!actor?.sessionId) return null;
  return { organisationId: actor.organisationId, facilityId: actor.facility.id, streamKey: actor.sessionId };
}
