import type { Answer } from "@/lib/domain/answer";
import type { Check, CheckSignature, Evidence, EvidenceEvent, Known, Observation } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { CheckKind, EventKind } from "@/lib/domain/vocabulary";
import { readyTime, TECHNICIAN } from "@/tests/support/ready-room";

/** Changes to a ready US room, written in the facility's own time of 3 March 2026; a day may be added in front ("+1 05:01"). */
export function moment(text: string): string {
  const [days, time] = text.includes(" ") ? (text.split(" ") as [string, string]) : ["+0", text];
  return new Date(Date.parse(readyTime("US", time)) + Number(days) * 86_400_000).toISOString();
}

export const lookedAt = (evidence: Evidence, time: string): Evidence => ({ ...evidence, now: moment(time) });

export function withCheck(
  evidence: Evidence,
  check: {
    id: string;
    kind?: CheckKind;
    started: string;
    signed?: readonly (Partial<CheckSignature> & { at: string })[];
  },
): Evidence {
  const made: Check = {
    id: check.id,
    procedure: evidence.procedure?.id ?? null,
    kind: check.kind ?? "daily",
    startedAt: moment(check.started),
    startedBy: TECHNICIAN,
    signed: (check.signed ?? []).map((signature) => ({
      by: TECHNICIAN,
      role: "technician",
      meaning: "performed",
      ...signature,
      at: moment(signature.at),
    })),
  };
  return { ...evidence, checks: [...evidence.checks.filter(({ id }) => id !== made.id), made] };
}

export interface GivenAnswer {
  readonly item: ItemId;
  readonly subject?: Subject;
  readonly answer: Answer;
  readonly at: string;
  readonly check?: string | null;
  readonly known?: Known;
  readonly recorded?: string;
  readonly by?: string;
  readonly supersedes?: string;
  readonly makersVerdict?: Observation["makersVerdict"];
  readonly id?: string;
}

export function withAnswer(evidence: Evidence, given: GivenAnswer): Evidence {
  const subject = given.subject ?? evidence.procedure?.owes.find(({ item }) => item === given.item)?.subject;
  if (subject === undefined) throw new Error(`say what ${given.item} is about`);
  const made: Observation = {
    id: given.id ?? `given-${evidence.observations.length}`,
    item: given.item,
    subject,
    answer: given.answer,
    verdict: given.answer.kind === "pass" && !given.answer.passed ? "fail" : "noted",
    makersVerdict: given.makersVerdict ?? null,
    observedAt: moment(given.at),
    known: given.known ?? { source: "server" },
    by: given.by ?? TECHNICIAN,
    role: "technician",
    check: given.check === undefined ? "check-daily" : given.check,
    recordedAt: moment(given.recorded ?? given.at),
    supersedes: given.supersedes ?? null,
  };
  return { ...evidence, observations: [...evidence.observations, made] };
}

export function withEvent(
  evidence: Evidence,
  kind: EventKind,
  subject: Subject,
  at: string,
  id = `event-${kind}`,
): Evidence {
  const made: EvidenceEvent = { id, kind, subject, at: moment(at), zone: null };
  return { ...evidence, events: [...evidence.events, made] };
}

/** What is owed, as "item subject because" lines. */
export const owedLines = (owed: readonly { item: ItemId; subject: Subject; because: string }[]): string[] =>
  owed.map(({ item, subject, because }) => `${item} ${subject.id} ${because}`).sort();
