import type { Actor } from "@/lib/auth/actor";
import { type CommandName, may, PERMISSIONS } from "@/lib/domain/permission";
import { appReading, type Reading } from "@/lib/queries/read";
import { readWords } from "@/lib/queries/words";
import type { SessionView } from "@/lib/schemas/set-up";
import { instant, timestampOf } from "@/lib/units/time";

/** Who is signed in, where, and which commands the buttons may offer. */
export async function readSession(actor: Actor, reading: Reading = appReading()): Promise<SessionView> {
  return {
    person: { id: actor.personId, name: actor.name, userId: actor.userId },
    roles: [...actor.roles],
    facility: actor.facility,
    words: await readWords(actor, reading),
    facilities: [...actor.facilities],
    mayDo: (Object.keys(PERMISSIONS) as CommandName[]).filter((command) => may(actor.roles, command)),
    at: timestampOf(instant(reading.now())),
    demo: process.env.YOKEBOARD_DEMO === "1",
  };
}
