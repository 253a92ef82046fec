import { type Actor, scopeOf } from "@/lib/auth/actor";
import { secretMatches } from "@/lib/auth/secret";
import { forgetSession } from "@/lib/auth/session";
import { accessOf } from "@/lib/domain/access/model";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { decideComponents, demandOf } from "@/lib/domain/signature/decide";
import type { Component, Demand, GivenSignature } from "@/lib/domain/signature/model";
import { appDatabase, type Database } from "@/lib/storage/client";
import { sessionWasActive } from "@/lib/storage/session-locks";
import { findSession } from "@/lib/storage/sessions";
import { type Instant, instant } from "@/lib/units/time";

declare const proven: unique symbol;

/** That somebody gave what their site asks of a signature. Only this file makes one, and `execute` takes no signature without it. */
export interface SigningProof {
  readonly personId: string;
  readonly components: readonly Component[];
  readonly [proven]: true;
}

export type SigningRefusal =
  | "signature-required"
  | "signature-wrong"
  | "too-many"
  | "sign-in-required"
  | "locked"
  | "not-allowed";

const proofOf = (personId: string, components: readonly Component[]): SigningProof =>
  ({ personId, components }) as unknown as SigningProof;

/** What the session's next signature asks for, read anew: a copy a few seconds old may have missed a lock. */
export async function signingDemand(
  actor: Actor,
  now: Instant = instant(Date.now()),
  database: Database = appDatabase(),
): Promise<Outcome<Demand, SigningRefusal>> {
  if (actor.kind === "token")
    return refused("not-allowed", "A token signs nothing. A signature is a person's own act.");
  const record = actor.sessionId ? await findSession(database, actor.sessionId) : null;
  if (!record || record.expiresAt <= now)
    return refused("sign-in-required", "Your session has ended. Sign in again, then sign.");
  if (record.lockedAt !== null) return refused("locked", "This screen is locked. Unlock it, then sign.");
  const { signing, idleMinutes } = accessOf(record.access);
  return done(
    demandOf(
      {
        policy: signing,
        idleMinutes,
        activeAt: instant(record.activeAt),
        fullySignedAt: record.fullySignedAt === null ? null : instant(record.fullySignedAt),
      },
      now,
    ),
  );
}

/** The ceremony: what is asked for, whether it was given, and whether it is right. */
export async function proveSigner(
  actor: Actor,
  given: GivenSignature | null,
  device: string,
  database: Database = appDatabase(),
  now: Instant = instant(Date.now()),
): Promise<Outcome<SigningProof, SigningRefusal>> {
  const demand = await signingDemand(actor, now, database);
  if (!demand.ok) return demand;
  const components = decideComponents(demand.value, given, actor.userId);
  if (!components.ok) return components;
  if (given?.secret && demand.value !== "none") {
    const who = { ...scopeOf(actor), personId: actor.personId, userId: actor.userId };
    const right = await secretMatches(who, given.secret, device, database);
    if (!right.ok) return right;
  }
  const { sessionId } = actor;
  if (sessionId) {
    await database.inScope(scopeOf(actor), (tx) =>
      sessionWasActive(tx, sessionId, now, components.value.includes("user-id")),
    );
    forgetSession(sessionId);
  }
  return done(proofOf(actor.personId, components.value));
}

/**
 * For what never had a session: the invented people of the demonstration's history, and benchmarks and tests that speak to the commands
 * themselves. Never for a request: a person's actor carries a session, and is refused.
 */
export function proofWithoutSession(actor: Actor): SigningProof {
  if (actor.sessionId !== null || actor.kind === "token")
    throw new Error("a person with a session proves a signature by giving it");
  return proofOf(actor.personId, []);
}
