import type { Tx } from "@/lib/storage/client";
import { insertEscalation, type NewEscalation } from "@/lib/storage/escalations";
import { insertMessage } from "@/lib/storage/messages";

/** One person is asked, and told by every way they have. False when somebody is asked about this task already. */
export async function askPerson(
  tx: Tx,
  facilityId: string,
  escalation: NewEscalation,
  newId: () => string,
): Promise<boolean> {
  if (!(await insertEscalation(tx, facilityId, escalation))) return false;
  await insertMessage(tx, facilityId, {
    id: newId(),
    personId: escalation.personId,
    kind: "escalation",
    about: escalation.id,
    title: "You are asked to see to this",
    body: escalation.reason,
    path: "/messages",
    at: escalation.at,
  });
  return true;
}
