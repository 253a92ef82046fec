import type { Actor } from "@/lib/auth/actor";
import type { Role } from "@/lib/domain/vocabulary";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { PeopleView } from "@/lib/schemas/set-up";
import { listPeople } from "@/lib/storage/people";
import { peopleToTry } from "@/lib/storage/sessions";

/** The people of the organisation with their roles here. Colleagues' names are no secret among colleagues: history shows them to all. */
export function readPeople(actor: Actor, reading: Reading = appReading()): Promise<PeopleView> {
  return inFacility(
    actor,
    async (tx, frame) => ({
      people: (await listPeople(tx, frame.scope.facilityId)).map((person) => ({ ...person, roles: [...person.roles] })),
    }),
    reading,
  );
}

/** The demo's people for its sign-in page; nobody outside of the demo. */
export async function readPeopleToTry(): Promise<{ userId: string; name: string; facility: string; roles: Role[] }[]> {
  return process.env.YOKEBOARD_DEMO === "1" ? peopleToTry(appReading().database) : [];
}
