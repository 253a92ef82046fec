import { onDutyFor } from "@/lib/domain/duty/decide";
import type { DutyNow } from "@/lib/domain/duty/model";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { TaskWork } from "@/lib/domain/task/model";
import type { Role } from "@/lib/domain/vocabulary";

/** Who gives the word, with the roles on record. */
export interface Worker {
  readonly personId: string;
  readonly roles: readonly Role[];
}

/** Who is to go on with a task; null when the organisation has no such person. */
export interface Successor extends Worker {
  readonly name: string;
  readonly active: boolean;
}

interface TaskNow {
  readonly mayDo: readonly Role[];
  readonly claim: { readonly personId: string; readonly name: string } | null;
  readonly work: TaskWork | null;
}

type Refusal = Extract<
  Outcome<never, "taken" | "already-done" | "not-allowed" | "not-yours" | "invalid" | "does-not-fit" | "not-found">,
  { ok: false }
>;

const mine = ({ claim }: TaskNow, { personId }: Worker): boolean => claim?.personId === personId;

const isFor = ({ mayDo }: TaskNow): string => `This task is for: ${mayDo.join(", ").replaceAll("-", " ")}.`;

const notFor = (task: TaskNow, { roles }: Worker): Refusal | null =>
  task.mayDo.some((role) => roles.includes(role)) ? null : refused("not-allowed", isFor(task));

/** Begins it, or goes on after a pause; a free task is taken by beginning it. */
export function decideStart(task: TaskNow, worker: Worker): Outcome<{ readonly claims: boolean }, Refusal["refusal"]> {
  if (task.claim && !mine(task, worker))
    return refused("taken", `${task.claim.name} has this task. Nothing was changed.`);
  if (mine(task, worker) && task.work?.state === "started")
    return refused("already-done", "You have begun this task already.");
  return notFor(task, worker) ?? done({ claims: task.claim === null });
}

export function decidePause(task: TaskNow, worker: Worker): Outcome<null, Refusal["refusal"]> {
  if (!task.claim) return refused("not-yours", "Nobody has this task, so there is nothing to pause.");
  if (!mine(task, worker)) return refused("not-yours", `${task.claim.name} has this task; only they can pause it.`);
  if (task.work?.state === "paused") return refused("already-done", "This task is paused already.");
  return done(null);
}

/** To somebody who may do it and is on duty. Where nobody entered a roster, anybody who may do it. */
export function decideHandOver(
  task: TaskNow,
  worker: Worker,
  successor: Successor | null,
  duty: DutyNow,
): Outcome<Successor, Refusal["refusal"]> {
  if (!task.claim) return refused("not-yours", "Nobody has this task; whoever does it can take it.");
  if (!mine(task, worker)) return refused("not-yours", `${task.claim.name} has this task; only they can hand it over.`);
  return mayFollow(task, worker, successor, duty);
}

function mayFollow(
  task: TaskNow,
  worker: Worker,
  successor: Successor | null,
  duty: DutyNow,
): Outcome<Successor, Refusal["refusal"]> {
  const field = "toPersonId";
  if (!successor?.active) return refused("not-found", "There is nobody with this id who works here.", field);
  if (successor.personId === worker.personId)
    return refused("invalid", "You have this task already. Choose somebody else.", field);
  if (!task.mayDo.some((role) => successor.roles.includes(role)))
    return refused("does-not-fit", `${successor.name} may not do it. ${isFor(task)}`, field);
  const able = onDutyFor(duty, task.mayDo);
  if (!duty.onRoster || able.some(({ personId }) => personId === successor.personId)) return done(successor);
  const others = able.map(({ name }) => name).join(", ");
  return refused(
    "does-not-fit",
    `${successor.name} is not on duty now. ${others ? `On duty and able to: ${others}.` : "Nobody on duty may do it."}`,
    field,
  );
}

/** Takes a task from whoever has it, as from somebody who has left. */
export function decideTakeOver(
  task: TaskNow,
  worker: Worker,
): Outcome<{ readonly from: string; readonly fromId: string }, Refusal["refusal"]> {
  if (!task.claim) return refused("already-done", "Nobody has this task: take it.");
  if (mine(task, worker)) return refused("already-done", "You have this task already.");
  return notFor(task, worker) ?? done({ from: task.claim.name, fromId: task.claim.personId });
}

/** Cannot be done by who has it, or by who came to take it; it goes to somebody else, or back to all with the reason. */
export function decideCannot(
  task: TaskNow,
  worker: Worker,
  successor: Successor | null | "nobody",
  duty: DutyNow,
): Outcome<Successor | null, Refusal["refusal"]> {
  if (task.claim && !mine(task, worker))
    return refused("not-yours", `${task.claim.name} has this task; take it over first.`);
  const others = notFor(task, worker);
  if (others) return others;
  return successor === "nobody" ? done(null) : mayFollow(task, worker, successor, duty);
}

/** Takes it. What is told to the second of two is who was first. */
export function decideClaim(task: TaskNow | null, worker: Worker): Outcome<null, Refusal["refusal"]> {
  if (!task) return refused("not-found", "This task is no longer open: what it was about has been cleared.");
  if (mine(task, worker)) return refused("already-done", "You have this task already.");
  if (task.claim) return refused("taken", `${task.claim.name} has this task already.`);
  return notFor(task, worker) ?? done(null);
}
