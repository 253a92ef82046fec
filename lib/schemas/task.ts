import { z } from "zod";
import { SEVERITIES } from "@/lib/domain/judgement";
import { answerGiven, checkItem } from "@/lib/schemas/check";
import { id, role, ruleId, subject, timestamp, words } from "@/lib/schemas/common";
import { dutyNow } from "@/lib/schemas/duty";
import { faultView, sparePartsView } from "@/lib/schemas/moves";

export const TASK_KINDS = ["check", "recheck", "swap-cylinder", "clear", "confirm", "allow", "event"] as const;

export const taskView = z.strictObject({
  key: z.string(),
  kind: z.enum(TASK_KINDS),
  title: z.string(),
  /** What stands behind it: the reason's sentence. */
  why: z.string(),
  severity: z.enum(SEVERITIES),
  minutes: z.number(),
  mayDo: z.array(role),
  room: z.strictObject({ id, name: z.string(), suite: z.string() }).nullable(),
  workstation: z.strictObject({ id, tag: z.string() }).nullable(),
  subject: subject.nullable(),
  firstCase: timestamp.nullable(),
  /** The first case less its set-up; null where no case waits, or the room is closed. */
  readyBy: timestamp.nullable(),
  /** The rule behind it; null for a whole check. */
  rule: z.string().nullable(),
  openedAt: timestamp,
  /** Why it stands where it does in the order. */
  placed: z.string(),
  /** What happens if it waits; null where no roster says who is there to plan for. */
  ifItWaits: z.string().nullable(),
  /** Whose it is in the plan, and when they would begin it. */
  plannedFor: z.strictObject({ personId: id, name: z.string(), at: timestamp, lateMinutes: z.int() }).nullable(),
  claim: z.strictObject({ personId: id, name: z.string(), since: timestamp }).nullable(),
  /** For a check: one that is open already, to go on with. */
  openCheckId: id.nullable(),
  /** How far whoever has it is; null while nobody has it. */
  work: z
    .strictObject({ state: z.enum(["claimed", "started", "paused"]), since: timestamp, reason: z.string().nullable() })
    .nullable(),
  /** Who came to do it and could not, oldest first. */
  couldNot: z.array(z.strictObject({ name: z.string(), reason: z.string(), at: timestamp })),
  /** Who is on duty now and may do it. */
  onDuty: z.array(z.string()),
  /** Who was asked to see to it, while that is open. */
  escalation: z
    .strictObject({ personId: id, name: z.string(), at: timestamp, answeredAt: timestamp.nullable() })
    .nullable(),
  /** Its place on the walk through the suites. */
  walkingOrder: z.number(),
});
export type TaskView = z.infer<typeof taskView>;

export const taskList = z.strictObject({ at: timestamp, tasks: z.array(taskView), duty: dutyNow });
export type TaskList = z.infer<typeof taskList>;

const partName = z.strictObject({ id, tag: z.string() });
const taskWay = z.discriminatedUnion("kind", [
  /** The items, answered and signed. */
  z.strictObject({ kind: z.literal("answers") }),
  z.strictObject({ kind: z.literal("look-at-fault"), fault: faultView }),
  z.strictObject({
    kind: z.literal("lift-hold"),
    hold: z.strictObject({ id, name: z.string(), reason: z.string(), since: timestamp }),
  }),
  z.strictObject({
    kind: z.literal("fit-part"),
    part: z.enum(["absorbent", "oxygen-sensor"]),
    position: z.string(),
    takesOff: partName,
    product: z.string(),
    /** Items that this workstation is asked for: of them, some are then due again. */
    asked: z.array(z.string()),
    spares: sparePartsView,
  }),
  /** Cleared by other means than a form, each in one line; by none that is known, where there is no line. */
  z.strictObject({ kind: z.literal("elsewhere"), texts: z.array(z.string()) }),
]);

/** One task opened: what finishing it asks for. */
export const taskDetail = z.strictObject({
  task: taskView,
  /** The items that finishing must answer, as a check would ask them. */
  items: z.array(checkItem),
  /** What it opens: only what can clear it. */
  way: taskWay,
  /** For a cylinder swap: what is on the yoke, and the spares that fit it, by store. */
  swap: z
    .strictObject({
      position: z.string(),
      gas: z.string(),
      fitted: z.strictObject({ id, serial: z.string(), size: z.string() }).nullable(),
      spares: z.array(
        z.strictObject({ id, serial: z.string(), size: z.string(), store: z.string(), contents: z.string() }),
      ),
    })
    .nullable(),
  at: timestamp,
});
export type TaskDetail = z.infer<typeof taskDetail>;

export const taskKey = z.string().regex(/^[!-~]{3,200}$/, "must be the key of a task, as the list of tasks has it");
export const claimTaskRequest = z.strictObject({ key: taskKey });
export const claimTaskReply = z.strictObject({ key: taskKey, claimedAt: timestamp });
export const giveBackTaskRequest = z.strictObject({ key: taskKey });
export const giveBackTaskReply = z.strictObject({ key: taskKey });
export const finishTaskRequest = z.strictObject({
  key: taskKey,
  /** Where it was done: with it, work that nobody needs any more is still recorded. */
  workstationId: id.optional(),
  answers: z.array(answerGiven).min(1).max(40),
  note: words(500).optional(),
});
export const finishTaskReply = z.strictObject({
  key: taskKey,
  checkId: id,
  finishedAt: timestamp,
  failing: z.int(),
  /** What the task was about had been cleared meanwhile; the answers are recorded all the same. */
  noLongerNeeded: z.boolean(),
});

export const swapCylinderRequest = z.strictObject({
  workstationId: id,
  position: z.string().min(1).max(20),
  /** The cylinder to fit, by id or by the serial number on its label. */
  cylinder: z.union([z.strictObject({ id }), z.strictObject({ serial: words(60) })]),
  /** The cylinder seen on the yoke, or null for an empty one: refused when it is another by now. */
  takesOff: id.nullable().optional(),
  /** What the cylinder taken off holds. */
  takenOff: z.enum(["empty", "in-use"]),
  toStoreId: id.optional(),
});
export const swapCylinderReply = z.strictObject({
  workstationId: id,
  position: z.string(),
  fitted: z.string(),
  recheckTaskKey: z.string().nullable(),
});

export const ALLOWED_FOR = ["this-list", "1-day", "3-days", "10-days"] as const;
export const allowLimitRequest = z.strictObject({
  workstationId: id,
  rule: ruleId,
  allowFor: z.enum(ALLOWED_FOR),
  /** What is done meanwhile: "agent monitor on, mount 2 taped off". */
  measures: words(300),
});
export const allowLimitReply = z.strictObject({ workstationId: id, until: timestamp, stillNeeds: z.array(role) });
