import type { Actor } from "@/lib/auth/actor";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import type { Answer } from "@/lib/domain/answer";
import { readBoard } from "@/lib/queries/board";
import { readCheck } from "@/lib/queries/check";
import type { Reading } from "@/lib/queries/read";
import type { BoardRow } from "@/lib/schemas/board";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";

/** What people do in a room, step by step, through the commands and the reads that the screens use. */
export const readingOf = ({ database, clock }: SmallDepartment): Reading => ({ database, now: clock.now });

export async function roomNamed(department: SmallDepartment, name: string): Promise<BoardRow> {
  const { rooms } = await readBoard(department.admin, readingOf(department));
  const room = rooms.find((row) => row.name === name);
  if (!room) throw new Error(`no room ${name} on the board`);
  return room;
}

export async function workstationIn(department: SmallDepartment, name: string): Promise<string> {
  const { workstation } = await roomNamed(department, name);
  if (!workstation) throw new Error(`no workstation in ${name}`);
  return workstation.id;
}

export async function checkSeen(department: SmallDepartment, checkId: string, actor: Actor): Promise<CheckView> {
  const check = await readCheck(actor, checkId, readingOf(department));
  if (!check) throw new Error(`no check ${checkId}`);
  return check;
}

/** One question of a check, by its item and the beginning of its subject's name. */
export function question(check: CheckView, item: CheckItemView["item"], subject = ""): CheckItemView {
  const found = check.items.find((one) => one.item === item && one.subjectName.startsWith(subject));
  if (!found) throw new Error(`${item} ${subject} is not asked: ${check.items.map(({ key }) => key).join(", ")}`);
  return found;
}

export const given = ({ item, subject }: CheckItemView, answer: Answer) => ({ item, subject, answer });

export async function beginCheck(department: SmallDepartment, roomName: string, actor: Actor): Promise<CheckView> {
  const workstationId = await workstationIn(department, roomName);
  const { checkId } = await department.must(startCheck, { workstationId, kind: "daily" }, actor);
  return checkSeen(department, checkId, actor);
}

/** Answers everything that is still open, well unless told otherwise, and leaves the check unsigned. */
export async function answerRest(
  department: SmallDepartment,
  checkId: string,
  actor: Actor,
  answer: (item: CheckItemView) => Answer = goodAnswer,
): Promise<CheckView> {
  const { items, recorded } = await checkSeen(department, checkId, actor);
  const open = items.filter(({ key }) => !recorded.some((one) => one.key === key));
  const answers = open.map((item) => given(item, answer(item)));
  if (answers.length > 0) await department.must(recordAnswers, { checkId, answers }, actor);
  return checkSeen(department, checkId, actor);
}

/** A room's whole check, done and signed by one person. Returns the check as it is then. */
export async function checkWhole(
  department: SmallDepartment,
  roomName: string,
  actor: Actor,
  answer: (item: CheckItemView) => Answer = goodAnswer,
): Promise<CheckView> {
  const { id } = await beginCheck(department, roomName, actor);
  const { version } = await answerRest(department, id, actor, answer);
  await department.must(signCheck, { checkId: id, seenVersion: version }, actor);
  return checkSeen(department, id, actor);
}
