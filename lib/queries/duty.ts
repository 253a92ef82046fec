import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { dutyNowIn, dutyNowView } from "@/lib/queries/tasks";
import type { DutyView } from "@/lib/schemas/duty";
import type { TaskList } from "@/lib/schemas/task";
import { type DutyRow, dutyOn } from "@/lib/storage/duty";
import { localDate, timeIn, timestampOf } from "@/lib/units/time";

/** The roster of a day; of the running check day when none is named. */
export const readDuty = (
  actor: Actor,
  query: { readonly date?: string | undefined },
  reading: Reading = appReading(),
): Promise<DutyView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const date = query.date === undefined ? checkDayAt(checkClock(frame), now).date : localDate(query.date);
      return {
        date,
        people: peopleOf(await dutyOn(tx, frame.scope.facilityId, date), frame.facility.timeZone),
        at: timestampOf(now),
      };
    },
    reading,
  );

/** Who is on duty at this moment, by the roster. */
export const readDutyNow = (actor: Actor, reading: Reading = appReading()): Promise<TaskList["duty"]> =>
  inFacility(actor, async (tx, frame, now) => dutyNowView(await dutyNowIn(tx, frame, now)), reading);

function peopleOf(rows: readonly DutyRow[], timeZone: string): DutyView["people"] {
  const people = new Map<string, DutyView["people"][number]>();
  for (const { personId, name, role, from, to } of rows) {
    const person = people.get(personId) ?? { personId, name, spans: [] };
    person.spans.push({ role, from: timeIn(timeZone, from), to: timeIn(timeZone, to) });
    people.set(personId, person);
  }
  return [...people.values()];
}
