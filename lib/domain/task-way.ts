import type { Evidence } from "@/lib/domain/evidence";
import { sameSubject } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import type { Finding } from "@/lib/domain/judgement";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Action, ActionKind } from "@/lib/domain/way-action";
import { applied } from "@/lib/domain/way-applied";
import { clears } from "@/lib/domain/way-clearing";
import { sceneOf } from "@/lib/domain/way-shortest";

/** What somebody who opens a task has before them. Only what can clear the task is ever offered. */
export type TaskWay =
  /** Answers to the task's own items, signed. */
  | { readonly kind: "answers" }
  | { readonly kind: "look-at-fault"; readonly faultId: string }
  | { readonly kind: "lift-hold"; readonly holdId: string }
  /** Another part goes on; what was seen of the old one is never answered away. */
  | { readonly kind: "fit-part"; readonly part: "absorbent" | "oxygen-sensor"; readonly partId: string }
  /** Done at another place, or by means that are not a form: each in one line. */
  | { readonly kind: "elsewhere"; readonly texts: readonly string[] };

const ANSWERS: TaskWay = { kind: "answers" };

/** How this task is finished, from what clears the reason behind it. */
export function wayOfTask(task: TaskDraft, evidence: Evidence): TaskWay {
  if (task.kind === "recheck" || task.kind === "swap-cylinder") return ANSWERS;
  if (task.kind !== "clear") return { kind: "elsewhere", texts: [] };
  const scene = sceneOf(evidence);
  const reason = scene.judgement.reasons.find((one) => isBehind(one, task) && one.text === task.why);
  const actions = reason ? clears(reason, scene) : [];
  if (actions.some((action) => isAnswered(action, task) && helps(action, task, evidence))) return ANSWERS;
  return formOf(actions) ?? { kind: "elsewhere", texts: elsewhere(actions) };
}

/** Allowing use with the limit is a task of its own, and leaves this one undone. */
const elsewhere = (actions: readonly Action[]): string[] =>
  actions.filter(({ kind }) => kind !== "allow").map(({ text }) => text);

const isBehind = ({ rule, subject }: Finding, task: TaskDraft): boolean =>
  rule === task.rule && task.subject !== null && sameSubject(subject, task.subject);

/** Tried out: a flowmeter that is quarantined stays so, however well it answers. */
function helps(action: Action, task: TaskDraft, evidence: Evidence): boolean {
  const after = applied(action, evidence);
  return after !== null && !judge(after).reasons.some((one) => isBehind(one, task) && one.severity !== "note");
}

/** Can the task's own items be answered so that the reason goes? */
const isAnswered = ({ items }: Action, task: TaskDraft): boolean =>
  items.length > 0 && items.every((one) => asks(task, one));

const asks = (task: TaskDraft, { item, subject }: Action["items"][number]): boolean =>
  task.items.some((asked) => asked.item === item && (asked.subject === null || sameSubject(asked.subject, subject)));

const PARTS: Partial<Record<ActionKind, "absorbent" | "oxygen-sensor">> = {
  "change-absorbent": "absorbent",
  "replace-sensor": "oxygen-sensor",
};

function formOf(actions: readonly Action[]): TaskWay | null {
  for (const { kind, about, subject } of actions) {
    if (kind === "look-at-fault" && about !== null) return { kind, faultId: about };
    if (kind === "lift-hold" && about !== null) return { kind, holdId: about };
    const part = PARTS[kind];
    if (part && subject !== null) return { kind: "fit-part", part, partId: subject.id };
  }
  return null;
}
