import { z } from "zod";
import { CHECK_KINDS } from "@/lib/domain/vocabulary";
import { id, timestamp, words } from "@/lib/schemas/common";
import { taskKey } from "@/lib/schemas/task";

/** Checks that change hands, and what people say about tasks while they have them. */
export const takeOverCheckRequest = z.strictObject({ checkId: id, reason: words(300) });
export const takeOverCheckReply = z.strictObject({ checkId: id, from: z.string() });

export const correctWorkstationRequest = z.strictObject({
  checkId: id,
  /** The workstation that was really looked at. */
  workstationId: id,
  reason: words(300),
});
export const correctWorkstationReply = z.strictObject({
  /** The new check on the right workstation; it is still to be signed. */
  checkId: id,
  carried: z.int(),
  dropped: z.array(z.strictObject({ itemName: z.string(), subjectName: z.string(), why: z.string() })),
});

export const startSelfTestRequest = z.strictObject({ checkId: id });
export const startSelfTestReply = z.strictObject({ checkId: id, since: timestamp });

export const openCheck = z.strictObject({
  checkId: id,
  kind: z.enum(CHECK_KINDS),
  room: z.strictObject({ id, name: z.string() }).nullable(),
  workstation: z.strictObject({ id, tag: z.string() }),
  startedAt: timestamp,
  startedBy: z.string(),
  /** Who goes on with it now. */
  heldBy: z.string(),
  takenOverFrom: z.string().nullable(),
  answered: z.int(),
  asked: z.int(),
  selfTestSince: timestamp.nullable(),
});
export type OpenCheckView = z.infer<typeof openCheck>;
export const openChecksView = z.strictObject({ mine: z.array(openCheck), others: z.array(openCheck), at: timestamp });
export type OpenChecksView = z.infer<typeof openChecksView>;

export const startTaskRequest = z.strictObject({ key: taskKey });
export const startTaskReply = z.strictObject({ key: taskKey, since: timestamp });
export const pauseTaskRequest = z.strictObject({ key: taskKey, reason: words(300) });
export const pauseTaskReply = z.strictObject({ key: taskKey });
export const handOverTaskRequest = z.strictObject({ key: taskKey, toPersonId: id, note: words(300).optional() });
export const handOverTaskReply = z.strictObject({ key: taskKey, to: z.string() });
export const takeOverTaskRequest = z.strictObject({ key: taskKey, reason: words(300) });
export const takeOverTaskReply = z.strictObject({ key: taskKey, from: z.string() });
export const cannotDoTaskRequest = z.strictObject({
  key: taskKey,
  reason: words(300),
  /** Who goes on with it, when that is agreed. */
  toPersonId: id.optional(),
});
export const cannotDoTaskReply = z.strictObject({
  key: taskKey,
  to: z.string().nullable(),
  /** Who is on duty and may do it. */
  next: z.array(z.string()),
  /** The charge providers on duty, who see it marked. */
  told: z.array(z.string()),
});
export const claimTasksRequest = z.strictObject({
  keys: z.array(taskKey).min(1, "must name at least one task").max(40, "must name at most 40 tasks"),
});
export const claimTasksReply = z.strictObject({
  claimed: z.array(taskKey),
  left: z.array(z.strictObject({ key: taskKey, why: z.string() })),
});

export const pickListQuery = z.strictObject({
  /** Keys of tasks, separated by commas. */
  keys: z
    .string()
    .transform((text) => [...new Set(text.split(",").map((key) => key.trim()))])
    .pipe(z.array(taskKey).min(1).max(40, "must name at most 40 tasks")),
});
export const pickList = z.strictObject({
  parts: z.array(
    z.strictObject({
      what: z.string(),
      need: z.int(),
      stores: z.array(z.strictObject({ store: z.string(), count: z.int() })),
      /** How many are missing from all stores together. */
      short: z.int(),
    }),
  ),
  /** In walking order. */
  route: z.array(
    z.strictObject({
      suite: z.string().nullable(),
      rooms: z.array(
        z.strictObject({
          room: z.string(),
          tasks: z.array(z.strictObject({ key: taskKey, title: z.string(), minutes: z.number() })),
        }),
      ),
    }),
  ),
  minutes: z.number(),
  /** Keys that name no open task any more. */
  gone: z.array(z.string()),
  at: timestamp,
});
export type PickList = z.infer<typeof pickList>;
