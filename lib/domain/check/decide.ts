import { type CheckState, signedAs, standingAnswers, versionOf } from "@/lib/domain/check/model";
import type { Judgement } from "@/lib/domain/judgement";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Instant } from "@/lib/units/time";

type SignRefusal = "already-done" | "moved-on" | "invalid";
type ConfirmRefusal = SignRefusal | "not-allowed";

/** May answers still be added? A signed check is closed: what comes later is a check of its own. */
export function decideRecord(
  check: CheckState,
  who: (personId: string) => string,
): Outcome<null, "already-done" | "moved-on"> {
  if (check.corrected) return wasElsewhere();
  const signed = signedAs(check, "performed");
  if (signed)
    return refused("already-done", `This check was signed by ${who(signed.personId)}; start a new check to add to it.`);
  return done(null);
}

const wasElsewhere = () =>
  refused(
    "moved-on",
    "This check was of another workstation. Its answers were recorded again on the right one; go on with that check.",
  );

/** Goes on with a check that somebody else has begun. What was answered keeps the names of those who answered. */
export function decideTakeOver(
  check: CheckState,
  heldBy: string,
  personId: string,
  who: (personId: string) => string,
): Outcome<null, "already-done" | "moved-on" | "invalid"> {
  const open = decideRecord(check, who);
  if (!open.ok) return open;
  if (heldBy === personId) return refused("already-done", "This check is yours already. Nothing was changed.");
  if (check.kind !== "daily" && check.kind !== "first-user")
    return refused("invalid", "Only a full check is taken over; this one answers single items.");
  return done(null);
}

/** The workstation's own test begins once in a check, on a model that has one. */
export function decideSelfTest(
  check: CheckState,
  covers: readonly string[],
  runningSince: Instant | null,
  who: (personId: string) => string,
): Outcome<null, "already-done" | "moved-on" | "does-not-fit"> {
  const open = decideRecord(check, who);
  if (!open.ok) return open;
  if (covers.length === 0)
    return refused("does-not-fit", "This model has no self-test; its items are answered one by one.");
  if (runningSince !== null)
    return refused("already-done", "The self-test is running already; record its result when it has ended.");
  return done(null);
}

export interface Signing {
  readonly failing: number;
  readonly unanswered: number;
}

/**
 * Signs a check as performed. A check with failures in it is signed too: the mark says that somebody looked.
 * Refused when signed already, when nothing was answered, or when the answers moved on since they were shown.
 */
export function decideSign(
  check: CheckState,
  asked: readonly string[],
  seenVersion: number,
  who: (personId: string) => string,
): Outcome<Signing, SignRefusal> {
  if (check.corrected) return wasElsewhere();
  const signed = signedAs(check, "performed");
  if (signed)
    return refused(
      "already-done",
      `This check was finished and signed by ${who(signed.personId)}. Nothing was changed.`,
    );
  if (check.answers.length === 0)
    return refused("invalid", "Nothing has been answered yet; a signature needs something to stand for.");
  if (seenVersion !== versionOf(check))
    return refused(
      "moved-on",
      "Answers were added since you opened this summary. Look at them again, then sign.",
      "seenVersion",
    );
  const answered = standingAnswers(check.answers);
  return done({
    failing: [...answered.values()].filter(({ verdict }) => verdict === "fail").length,
    unanswered: asked.filter((key) => !answered.has(key)).length,
  });
}

/**
 * The provider's own mark on a check that somebody else performed. It means "I saw what was found and I agree that this room may start",
 * so it is refused while the room may not.
 */
export function decideConfirm(
  check: CheckState,
  judgement: Judgement,
  seenVersion: number,
  validUntil: Instant,
  now: Instant,
  who: (personId: string) => string,
): Outcome<null, ConfirmRefusal> {
  if (check.corrected) return wasElsewhere();
  const confirmed = signedAs(check, "confirmed");
  if (confirmed)
    return refused("already-done", `${who(confirmed.personId)} confirmed this check already. Nothing was changed.`);
  if (check.kind !== "daily" && check.kind !== "first-user")
    return refused("invalid", "Only a full check is confirmed; this one answers single items.");
  if (!signedAs(check, "performed"))
    return refused(
      "invalid",
      "This check has not been signed by who performed it, so there is nothing to confirm yet.",
    );
  if (now >= validUntil)
    return refused("moved-on", "This check was of an earlier check day and no longer counts. Confirm today's.");
  if (seenVersion !== versionOf(check))
    return refused(
      "moved-on",
      "The check has changed since you opened it. Look at it again, then confirm.",
      "seenVersion",
    );
  if (judgement.state !== "ready" && judgement.state !== "ready-limited") {
    const why = judgement.reasons[0]?.text ?? "something is still owed";
    return refused("not-allowed", `This room may not start: ${why}. It can be confirmed once that is cleared.`);
  }
  return done(null);
}
