import type { Answer } from "@/lib/domain/answer";
import type { Evidence, Observation, SettingValue, WorkstationEvidence } from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import { quantity, type Unit } from "@/lib/units/quantity";
import { type Instant, instantOf, later, MINUTE, timestampOf } from "@/lib/units/time";

/** How the rules' examples change a ready room. A signed answer takes the place of the one the ready room has. */

export const good: Answer = { kind: "pass", passed: true };
export const bad: Answer = { kind: "pass", passed: false };
export const reading = (value: number, unit: Unit): Answer => ({ kind: "number", reading: quantity(value, unit) });
export const chosen = (choice: string): Answer => ({ kind: "choice", choice });
export const timed = (seconds: number, held = true): Answer => ({ kind: "timed", seconds, held });
export const gauge = (
  value: number,
  unit: Unit = "psi",
  how: { open?: boolean; shutAgain?: boolean } = {},
): Answer => ({
  kind: "gauge",
  reading: quantity(value, unit),
  openWhenRead: how.open ?? true,
  shutAgain: how.shutAgain ?? true,
});

type Pick = (subject: Subject) => boolean;
const any: Pick = () => true;

/** Gives this answer about the item's subjects here, in the ready room's own check. */
export function answered(ready: Evidence, item: ItemId, answer: Answer, pick: Pick = any): Evidence {
  const others = ready.observations.filter((one) => !(one.item === item && pick(one.subject)));
  const subjects = subjectsHere(item, ready).filter(pick);
  const check = ready.checks.at(-1);
  const at = check?.signed[0]?.at ?? ready.now;
  const made = subjects.map(
    (subject, order): Observation => ({
      id: `example-${item}-${order}`,
      item,
      subject,
      answer,
      verdict: "noted",
      makersVerdict: null,
      observedAt: timestampOf(later(instantOf(at), -MINUTE)),
      known: { source: "server" },
      by: check?.startedBy ?? "example",
      role: "technician",
      check: check?.id ?? null,
      recordedAt: timestampOf(later(instantOf(at), -MINUTE)),
      supersedes: null,
    }),
  );
  return { ...ready, observations: [...others, ...made] };
}

export function unanswered(ready: Evidence, item: ItemId, pick: Pick = any): Evidence {
  return { ...ready, observations: ready.observations.filter((one) => !(one.item === item && pick(one.subject))) };
}

/** Nobody has looked at anything yet. */
export const unchecked = (ready: Evidence): Evidence => ({ ...ready, observations: [], checks: [] });

export function subjectsHere(item: ItemId, { room, workstation }: Evidence): Subject[] {
  const kind = itemOf(item).subject;
  const of = (ids: readonly string[]): Subject[] => ids.map((id) => ({ kind, id }));
  const ids = (parts: readonly { readonly id: string }[] | undefined) => of((parts ?? []).map(({ id }) => id));
  switch (kind) {
    case "room":
      return of(room ? [room.id] : []);
    case "pipeline":
      return of(room?.piped ?? []);
    case "workstation":
      return of(workstation ? [workstation.id] : []);
    case "cylinder":
      return ids(workstation?.fitted.cylinders);
    case "vaporizer":
      return ids(workstation?.fitted.vaporizers);
    case "absorbent":
      return ids(workstation?.fitted.absorbent);
    case "oxygen-sensor":
      return of(workstation?.fitted.oxygenSensor ? [workstation.fitted.oxygenSensor.id] : []);
  }
}

export const about =
  (id: string): Pick =>
  (subject) =>
    subject.id === id;

/** The cylinder fitted on the nth place for a gas, counted from one. */
export function cylinderOf(ready: Evidence, gas: string, place = 1): Pick {
  const found = ready.workstation?.fitted.cylinders.filter((cylinder) => cylinder.gas === gas)[place - 1];
  return (subject) => subject.id === found?.id;
}

export function withWorkstation(
  ready: Evidence,
  change: (workstation: WorkstationEvidence) => Partial<WorkstationEvidence>,
): Evidence {
  const { workstation } = ready;
  return workstation === null ? ready : { ...ready, workstation: { ...workstation, ...change(workstation) } };
}

export function withRoom(ready: Evidence, change: Partial<NonNullable<Evidence["room"]>>): Evidence {
  return ready.room === null ? ready : { ...ready, room: { ...ready.room, ...change } };
}

export function withValues(ready: Evidence, rule: string, values: Readonly<Record<string, SettingValue>>): Evidence {
  const setting = { on: true, values, version: 2, citation: "site policy" };
  return { ...ready, settings: { ...ready.settings, [rule]: setting } };
}

/** So many minutes after the ready room's own moment. */
export const minutesLater = (ready: Evidence, minutes: number): string =>
  timestampOf(later(nowOf(ready), minutes * MINUTE));
const nowOf = (ready: Evidence): Instant => instantOf(ready.now);
