import type { Answer } from "@/lib/domain/answer";
import type { Check, Evidence, Observation } from "@/lib/domain/evidence";
import { itemOf, type Subject, sameSubject } from "@/lib/domain/items";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { ItemAbout } from "@/lib/domain/way-action";
import { quantity, valueIn } from "@/lib/units/quantity";
import { instantOf, later, type Timestamp, timestampOf } from "@/lib/units/time";

/** What the record would say if an action were done now and ended well. Nothing of this is ever stored. */
const BY = "simulated";

/** One moment on: what is looked at now is certainly later than what was seen before. */
export function momentOn(evidence: Evidence): Evidence {
  return { ...evidence, now: timestampOf(later(instantOf(evidence.now), 1)) };
}

/** Signed good answers about these items, at the evidence's own moment. */
export function lookedAtWell(evidence: Evidence, items: readonly ItemAbout[], kind: CheckKind): Evidence {
  const at = evidence.now;
  const id = `${BY}:${at}:${kind}`;
  const check: Check = {
    id,
    procedure: evidence.procedure?.id ?? null,
    kind,
    startedAt: at,
    startedBy: BY,
    signed: [{ by: BY, role: "technician", meaning: "performed", at }],
  };
  const made = items.map((about, order) => observation(about, `${id}:${order}`, id, at, evidence));
  return { ...evidence, checks: [...evidence.checks, check], observations: [...evidence.observations, ...made] };
}

function observation(
  { item, subject }: ItemAbout,
  id: string,
  check: string,
  at: Timestamp,
  evidence: Evidence,
): Observation {
  return {
    id,
    item,
    subject,
    answer: goodAnswer(item, subject, evidence),
    verdict: "pass",
    makersVerdict: null,
    observedAt: at,
    known: { source: "server" },
    by: BY,
    role: "technician",
    check,
    recordedAt: at,
    supersedes: null,
  };
}

/** A gauge proves nothing by a word: a full cylinder reads its rated pressure. Everything else is answered by "works". */
function goodAnswer(item: ItemAbout["item"], subject: Subject, { workstation, facility }: Evidence): Answer {
  const cylinder =
    item === "cylinder-gauge" ? workstation?.fitted.cylinders.find(({ id }) => id === subject.id) : undefined;
  if (cylinder === undefined) return { kind: "pass", passed: true };
  const unit = facility.pressureUnit;
  const value = valueIn(cylinder.ratedPressure, unit) ?? cylinder.ratedPressure.value;
  return { kind: "gauge", reading: quantity(value, unit), openWhenRead: true, shutAgain: true };
}

/** The procedure asks about the new part what it asked about the old one. */
export function withPartReplaced(evidence: Evidence, old: Subject, made: Subject): Evidence {
  const { procedure } = evidence;
  if (procedure === null) return evidence;
  const owes = procedure.owes.map((one) => (sameSubject(one.subject, old) ? { ...one, subject: made } : one));
  return { ...evidence, procedure: { ...procedure, owes } };
}

export const isAboutRoom = ({ item }: ItemAbout): boolean => itemOf(item).about === "room";
