import type { Actor } from "@/lib/auth/actor";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { readCheck } from "@/lib/queries/check";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";

/** A whole check in which everything holds, signed: from then on the workstation is good until the next check day. */
export async function checkWorkstation(
  department: SmallDepartment,
  technician: Actor,
  workstationId: string,
): Promise<void> {
  const reading = { database: department.database, now: department.clock.now };
  const { checkId } = await department.must(startCheck, { workstationId, kind: "daily" }, technician);
  const check = await readCheck(technician, checkId, reading);
  const answers = (check?.items ?? []).map((item) => ({
    item: item.item,
    subject: item.subject,
    answer: goodAnswer(item),
  }));
  department.clock.add(10);
  await department.must(recordAnswers, { checkId, answers }, technician);
  const seenVersion = (await readCheck(technician, checkId, reading))?.version ?? 0;
  await department.must(signCheck, { checkId, seenVersion }, technician);
}
