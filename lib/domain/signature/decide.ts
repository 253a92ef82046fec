import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Component, Demand, GivenSignature, SigningSession } from "@/lib/domain/signature/model";
import { type Instant, MINUTE } from "@/lib/units/time";

/**
 * What the next signature of a session asks for. Source: 21 CFR 11.200(a)(1)(i) and (ii): both components first, one within the same
 * continuous period of controlled access. Locking, switching and idling end that period.
 */
export function demandOf({ policy, idleMinutes, activeAt, fullySignedAt }: SigningSession, now: Instant): Demand {
  if (policy === "none") return "none";
  if (policy === "one") return "one";
  const goesOn = fullySignedAt !== null && now - activeAt <= idleMinutes * MINUTE;
  return goesOn ? "one" : "two";
}

/** Was enough given, and by the person whose session it is? The secret itself is compared where secrets are kept. */
export function decideComponents(
  demand: Demand,
  given: GivenSignature | null,
  ownUserId: string,
): Outcome<readonly Component[], "signature-required" | "signature-wrong"> {
  if (demand === "none") return done([]);
  if (!given?.secret)
    return refused("signature-required", "Give your PIN or your password to sign.", "signature.secret");
  const userId = given.userId?.trim().toLowerCase() ?? "";
  if (demand === "two" && userId === "")
    return refused(
      "signature-required",
      "The first signature since you signed in or unlocked asks for your user id, too.",
      "signature.userId",
    );
  if (userId !== "" && userId !== ownUserId.toLowerCase())
    return refused(
      "signature-wrong",
      "This user id is not of the person who is signed in here. Nobody signs for somebody else: switch to your own name first.",
      "signature.userId",
    );
  return done(userId === "" ? [given.secret.kind] : ["user-id", given.secret.kind]);
}

const DIGITS = /^\d{6,12}$/;

/** A PIN that is quickly typed with gloves on, and not the first that somebody would try. Common practice, no source. */
export function decidePin(pin: string): Outcome<string, "invalid"> {
  if (!DIGITS.test(pin)) return refused("invalid", "A PIN has 6 to 12 digits and nothing else.", "pin");
  const steps = [...pin].slice(1).map((digit, place) => Number(digit) - Number(pin[place]));
  if (steps.every((step) => step === steps[0] && Math.abs(step) <= 1))
    return refused("invalid", "All the same digit, or digits in a row, are tried first. Choose another PIN.", "pin");
  if (/^(\d{2,3})\1+$/.test(pin))
    return refused("invalid", "A few digits over and over are tried first. Choose another PIN.", "pin");
  return done(pin);
}
