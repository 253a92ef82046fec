import { z } from "zod";
import { boardRow, facilityView } from "@/lib/schemas/board";
import { answer, date, id, itemId, quantity, role, subject, timestamp, words } from "@/lib/schemas/common";
import { action, judgement } from "@/lib/schemas/judgement";
import { faultView } from "@/lib/schemas/moves";
import { taskView } from "@/lib/schemas/task";
import { openCheck } from "@/lib/schemas/work";

/** One part of the gas path with its latest record. `standing` is how it counts now. */
export const partView = z.strictObject({
  key: z.string(),
  item: itemId,
  itemName: z.string(),
  subject,
  subjectName: z.string(),
  standing: z.enum(["failing", "passing", "owed", "noted"]),
  answer: answer.nullable(),
  /** The answer as a person reads it: "1,955 psi", "held 14 s", "works". */
  shown: z.string().nullable(),
  /** What the reading is worth, where a calculation says so: "680 L · 85 min". */
  worth: z.string().nullable(),
  limit: z.string().nullable(),
  /** The limits as numbers, in the unit of the series. */
  atLeast: quantity.nullable(),
  atMost: quantity.nullable(),
  at: timestamp.nullable(),
  by: z.string().nullable(),
  /** What became of a cylinder's contents since the reading before. */
  since: z.string().nullable(),
  /** Where they are heading; null where nothing is told from chance. */
  trend: z.strictObject({ slope: quantity, crossing: date, from: date, to: date.nullable() }).nullable(),
  /** The readings of the last weeks, oldest first. */
  series: z.array(z.strictObject({ at: timestamp, reading: quantity, failed: z.boolean() })),
});

/** Reserve oxygen on the workstation, cylinder by cylinder, and what is taken as its use. */
export const enduranceView = z.strictObject({
  cylinders: z.array(
    z.strictObject({
      position: z.string(),
      reading: quantity,
      at: timestamp,
      litres: z.number(),
      low: z.number(),
      high: z.number(),
      byHand: z.int(),
      onVentilator: z.int(),
    }),
  ),
  freshGas: quantity,
  /** What the drive takes from the reserve; 0 where it takes none. */
  driveGas: quantity,
  residual: quantity,
  temperature: quantity,
});

export const fittedView = z.strictObject({
  cylinders: z.array(
    z.strictObject({
      id,
      serial: z.string(),
      position: z.string(),
      gas: z.string(),
      size: z.string(),
      from: timestamp,
      expiry: date.nullable(),
      retestDue: date.nullable(),
    }),
  ),
  yokes: z.array(z.strictObject({ position: z.string(), gas: z.string() })),
  vaporizers: z.array(
    z.strictObject({
      id,
      tag: z.string(),
      mount: z.string(),
      agent: z.string(),
      from: timestamp,
      calibrationDue: date.nullable(),
    }),
  ),
  mounts: z.array(z.string()),
  absorbent: z.array(
    z.strictObject({ id, tag: z.string(), position: z.string(), product: z.string(), from: timestamp }),
  ),
  oxygenSensor: z.strictObject({ id, tag: z.string(), kind: z.string(), from: timestamp }).nullable(),
});

export const roomView = z.strictObject({
  facility: facilityView,
  row: boardRow,
  judgement,
  /** What clears each reason, in the order of the reasons: any one of these, the shortest first. */
  clears: z.array(z.array(action)),
  /** The shortest way to ready for the list; null for a room that is ready for it, and where no way is known. */
  way: z.strictObject({ actions: z.array(action), minutes: z.number() }).nullable(),
  drive: z.string().nullable(),
  leakTest: z.string().nullable(),
  fitted: fittedView.nullable(),
  parts: z.array(partView),
  endurance: enduranceView.nullable(),
  service: z.array(z.strictObject({ plan: z.string(), due: z.string(), from: z.string(), to: z.string() })),
  holds: z.array(z.strictObject({ id, name: z.string(), role, reason: z.string(), since: timestamp })),
  /** Today's checks of this room, newest first; `confirmable` is the one a provider would confirm. */
  checks: z.array(
    z.strictObject({
      id,
      kind: z.string(),
      startedAt: timestamp,
      startedBy: z.string(),
      signedAt: timestamp.nullable(),
      signedBy: z.string().nullable(),
    }),
  ),
  confirmable: z
    .strictObject({ checkId: id, version: z.int(), signedAt: timestamp, signedBy: z.string(), failing: z.int() })
    .nullable(),
  tasks: z.array(taskView),
  /** Reported and not yet looked at. */
  faults: z.array(faultView),
  /** Today's full checks of its workstation that nobody has signed yet. */
  openChecks: z.array(openCheck),
  /** Today's changes of provider, newest first. */
  providerChanges: z.array(z.strictObject({ name: z.string(), confirmed: z.boolean(), at: timestamp })),
  at: timestamp,
});
export type RoomView = z.infer<typeof roomView>;

export const holdWorkstationRequest = z.strictObject({ workstationId: id, reason: words(300) });
export const holdWorkstationReply = z.strictObject({ holdId: id });
export const liftHoldRequest = z.strictObject({ workstationId: id, holdId: id, reason: words(300) });
export const liftHoldReply = z.strictObject({ holdId: id });
export const roomRequest = z.strictObject({ roomId: id });
export const roomReply = z.strictObject({ roomId: id, at: timestamp });
