import type { Evidence } from "@/lib/domain/evidence";
import { itemOf, type Subject, sameSubject } from "@/lib/domain/items";
import type { Finding, Judgement } from "@/lib/domain/judgement";
import { PERMISSIONS } from "@/lib/domain/permission";
import { RULES } from "@/lib/domain/rules/all";
import { morning } from "@/lib/domain/rules/policy/morning";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Role } from "@/lib/domain/vocabulary";
import { lowerFirst, subjectName } from "@/lib/domain/wording";
import { type Quantity, valueIn } from "@/lib/units/quantity";

/** The rules whose findings the tasks "check" and "recheck" stand for. */
const OWED_RULES = new Set(["not-checked", "recheck-owed", "first-user-check"]);
const CYLINDER_RULES = new Set([
  "reserve-oxygen-low",
  "reserve-oxygen-second",
  "empty-cylinder",
  "nitrous-oxide-gas-phase",
  "cylinder-expiry",
  // A reserve that falls is swapped before it is low.
  "trend-crossing",
]);
const ENGINEER_RULES = new Set(["service-late", "withdrawn", "recall-open", "repeated-failures"]);

/**
 * The work that follows from a judgement. One unchecked room is one task and not one for each item; a closed room owes no check
 * today, but what is broken in it stays work. A note is nobody's work.
 */
export function tasksFor(judgement: Judgement, evidence: Evidence): TaskDraft[] {
  const closed = evidence.room?.occupancy.state === "closed";
  const tasks = [
    ...(closed ? [] : owedTasks(judgement, evidence)),
    ...judgement.reasons.flatMap((reason) => reasonTasks(reason, evidence, closed)),
  ];
  const byKey = new Map<string, TaskDraft>();
  // Reasons come in order of consequence, so of two with one key the graver one is kept.
  for (const task of tasks) if (!byKey.has(task.key)) byKey.set(task.key, task);
  return [...byKey.values()];
}

function owedTasks(judgement: Judgement, evidence: Evidence): TaskDraft[] {
  const { workstation } = evidence;
  if (workstation === null || judgement.state === "out-of-service") return [];
  const first = judgement.reasons.some(({ rule }) => rule === "first-user-check");
  if (first || owesWholeCheck(judgement)) return [checkTask(judgement, evidence, workstation.id, first)];
  if (judgement.owed.every(({ event }) => isOfZone(event, evidence))) return [];
  return [recheckTask(judgement, evidence, workstation.id)];
}

/** What an event of a whole zone makes due is one piece of work for all its rooms, and not one in each. */
const isOfZone = (event: string | null, { events }: Evidence): boolean =>
  event !== null && events.some(({ id, zone }) => id === event && zone !== null);

/** What failed because its zone failed comes back with the zone's own task: the same moment wrote both. */
const failedWithZone = ({ subject, items }: Finding, { events, observations }: Evidence): boolean =>
  observations.some(
    (observation) =>
      observation.check === null &&
      observation.verdict === "fail" &&
      items.includes(observation.item) &&
      sameSubject(observation.subject, subject) &&
      events.some(({ zone, at }) => zone !== null && at === observation.observedAt),
  );

/** Is a whole check owed? What a signed check left open, and what an event made due again, is asked for by itself. */
export function owesWholeCheck({ reasons, owed }: Judgement): boolean {
  if (!reasons.some(({ rule }) => rule === "not-checked")) return false;
  return owed.length === 0 || owed.some(({ because }) => because === "not-checked" || because === "expired");
}

function checkTask(judgement: Judgement, evidence: Evidence, workstationId: string, first: boolean): TaskDraft {
  const { fullCheck, recheckItem } = valuesOf(morning, evidence);
  // A check with a few items left open does not take as long as a whole one.
  const minutes = Math.min(minutesOf(fullCheck), Math.max(1, judgement.owed.length) * minutesOf(recheckItem));
  return {
    key: `check:${workstationId}`,
    kind: "check",
    title: first ? "First-user check" : `${evidence.procedure?.name ?? "Daily check"}`,
    why: whyOf(judgement, first ? "first-user-check" : "not-checked"),
    severity: "owed",
    minutes: judgement.owed.length === 0 ? minutesOf(fullCheck) : minutes,
    mayDo: PERMISSIONS["start-check"],
    items: judgement.owed.map(({ item, subject }) => ({ item, subject })),
    subject: { kind: "workstation", id: workstationId },
    rule: null,
    checkKind: first ? "first-user" : "daily",
  };
}

function recheckTask(judgement: Judgement, evidence: Evidence, workstationId: string): TaskDraft {
  const { owed } = judgement;
  const why = [whyOf(judgement, "not-checked"), whyOf(judgement, "recheck-owed")]
    .filter((text) => text !== "")
    .join("; ");
  return {
    key: `recheck:${workstationId}`,
    kind: "recheck",
    title: why,
    why,
    severity: "owed",
    minutes: owed.length * minutesOf(valuesOf(morning, evidence).recheckItem),
    mayDo: PERMISSIONS["finish-task"],
    items: owed.map(({ item, subject }) => ({ item, subject })),
    subject: { kind: "workstation", id: workstationId },
    rule: "recheck-owed",
    checkKind: "recheck",
  };
}

const whyOf = (judgement: Judgement, rule: string): string =>
  judgement.reasons
    .filter((reason) => reason.rule === rule)
    .map(({ text }) => text)
    .join("; ");

/** An empty room is put right by moving a workstation in, which is not work that somebody finishes with answers. */
const NOBODYS_TASK = new Set(["no-workstation"]);

function reasonTasks(reason: Finding, evidence: Evidence, closed: boolean): TaskDraft[] {
  if (reason.severity === "note" || OWED_RULES.has(reason.rule) || NOBODYS_TASK.has(reason.rule)) return [];
  if (reason.rule === "provider-mark-owed" || reason.rule === "countersign")
    return closed ? [] : [confirmTask(reason, evidence)];
  if (CYLINDER_RULES.has(reason.rule) && reason.subject.kind === "cylinder") return [swapTask(reason, evidence)];
  if (failedWithZone(reason, evidence)) return mayBeAllowed(reason) ? [allowTask(reason, evidence)] : [];
  const clear = clearTask(reason, evidence);
  return mayBeAllowed(reason) ? [allowTask(reason, evidence), clear] : [clear];
}

const mayBeAllowed = ({ rule, severity, allowedUntil }: Finding): boolean =>
  severity === "limits" &&
  allowedUntil === null &&
  RULES.some(({ id, allowedBy }) => id === rule && allowedBy.length > 0);

/** A pipeline is named by its gas, which is the same in every room: the room tells them apart. */
const subjectKey = ({ kind, id }: Subject, { room }: Evidence): string =>
  kind === "pipeline" && room !== null ? `${kind}:${id}:${room.id}` : `${kind}:${id}`;

const about = ({ rule, subject }: Finding, evidence: Evidence): string => `${rule}:${subjectKey(subject, evidence)}`;

/** Rules that may have several findings about one machine, each of them work of its own. */
const SEVERAL_RULES = new Set(["held", "fault-reported", "service-late", "recall-open", "withdrawn"]);

/** What tells this piece of work from every other in the room: the failed item, or what the reason says. */
function clearKey(reason: Finding, evidence: Evidence): string {
  const { rule, subject, items, text } = reason;
  if (SEVERAL_RULES.has(rule)) return `clear:${about(reason, evidence)}:${fingerprint(text)}`;
  const ownItems = RULES.find(({ id }) => id === rule)?.items.length ?? 0;
  const named = ownItems !== 1 && items.length === 1 ? items[0] : rule;
  return `clear:${named}:${subjectKey(subject, evidence)}`;
}

/** FNV-1a, 32 bits: short, and the same for the same words everywhere. It tells a handful of texts apart and guards nothing. */
function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (const character of text) hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  return hash.toString(36);
}

function confirmTask(reason: Finding, evidence: Evidence): TaskDraft {
  return {
    ...taskOf(reason, `confirm:${reason.subject.id}`, "confirm", "Add the provider's check"),
    minutes: minutesOf(valuesOf(morning, evidence).confirm),
    mayDo: PERMISSIONS["confirm-check"],
  };
}

function swapTask(reason: Finding, evidence: Evidence): TaskDraft {
  const name = subjectName(reason.subject, evidence.workstation);
  return {
    ...taskOf(reason, `swap-cylinder:${reason.subject.id}`, "swap-cylinder", `Swap ${lowerFirst(name)}`),
    minutes: minutesOf(valuesOf(morning, evidence).cylinder),
    mayDo: PERMISSIONS["swap-cylinder"],
    items: [
      { item: "cylinder-gauge", subject: reason.subject },
      { item: "yoke-leak", subject: reason.subject },
    ],
  };
}

function clearTask(reason: Finding, evidence: Evidence): TaskDraft {
  return {
    ...taskOf(reason, clearKey(reason, evidence), "clear", newCharge(reason, evidence) ?? reason.text),
    minutes: minutesOf(valuesOf(morning, evidence).remedy),
    mayDo: mayClear(reason),
  };
}

/** The rules that only a new charge of absorbent satisfies, however the old one looks by now. */
const NEW_CHARGE_RULES = new Set(["absorbent-colour", "absorbent-co2", "absorbent-dry", "absorbent-date"]);

function newCharge({ rule, subject }: Finding, { workstation }: Evidence): string | null {
  if (!NEW_CHARGE_RULES.has(rule) || subject.kind !== "absorbent") return null;
  const name = subjectName(subject, workstation);
  return name ? `Fit a new charge: ${lowerFirst(name)}` : "Fit a new charge of absorbent";
}

function allowTask(reason: Finding, evidence: Evidence): TaskDraft {
  const allowedBy = RULES.find(({ id }) => id === reason.rule)?.allowedBy ?? [];
  return {
    ...taskOf(reason, `allow:${about(reason, evidence)}`, "allow", `Decide: ${lowerFirst(reason.text)}`),
    minutes: 1,
    mayDo: allowedBy,
  };
}

function taskOf(reason: Finding, key: string, kind: TaskDraft["kind"], title: string): TaskDraft {
  const { text: why, severity, subject, rule } = reason;
  // A reason about an item concerns its own subject; one about the whole machine asks about every subject the item has.
  const items = reason.items.map((item) => ({ item, subject: itemOf(item).subject === subject.kind ? subject : null }));
  return { key, kind, title, why, severity, minutes: 0, mayDo: [], items, subject, rule, checkKind: null };
}

function mayClear({ rule }: Finding): readonly Role[] {
  if (rule === "held") return PERMISSIONS["lift-hold"];
  if (rule === "fault-reported") return PERMISSIONS["look-at-fault"];
  return ENGINEER_RULES.has(rule) ? ["biomedical-engineer"] : PERMISSIONS["finish-task"];
}

const minutesOf = (time: Quantity): number => valueIn(time, "min") ?? 0;
