import type { Role } from "@/lib/domain/vocabulary";
import type { DutyView } from "@/lib/schemas/duty";

/** Minutes after midnight of the day looked at: [from, to). */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface PersonDay {
  readonly personId: string;
  readonly name: string;
  readonly stretches: readonly (Stretch & { readonly role: Role; readonly said: string })[];
}

export const DAY = 24 * 60;

export const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

/** Everybody who is on duty at some time of the day: by that day's roster, and by the night that runs into it. */
export function peopleOfDay(day: DutyView, before: DutyView): PersonDay[] {
  const people = new Map<string, { personId: string; name: string; stretches: PersonDay["stretches"][number][] }>();
  const add = (view: DutyView, night: boolean) => {
    for (const { personId, name, spans } of view.people) {
      for (const { role, from, to } of spans) {
        const runsOver = minutesOf(to) <= minutesOf(from);
        if (night && (!runsOver || minutesOf(to) === 0)) continue;
        const person = people.get(personId) ?? { personId, name, stretches: [] };
        people.set(personId, person);
        person.stretches.push({
          role,
          from: night ? 0 : minutesOf(from),
          to: !night && runsOver ? DAY : minutesOf(to),
          said: night ? `since yesterday ${from}, to ${to}` : `${from} to ${to}${runsOver ? " next day" : ""}`,
        });
      }
    }
  };
  add(before, true);
  add(day, false);
  return [...people.values()].sort(
    (left, right) =>
      placeOf(left) - placeOf(right) || startOf(left) - startOf(right) || left.name.localeCompare(right.name),
  );
}

/** Whoever is called first stands first; among them whoever comes first. */
const placeOf = ({ stretches }: PersonDay): number =>
  Math.min(...stretches.map(({ role }) => (CALLED.includes(role) ? CALLED.indexOf(role) : CALLED.length)));
const startOf = ({ stretches }: PersonDay): number => Math.min(...stretches.map(({ from }) => from));

export interface Coverage {
  readonly role: Role;
  readonly gaps: readonly Stretch[];
}

/** Roles without which a night or a morning stands still: somebody must be there to be called. */
export const CALLED: readonly Role[] = ["technician", "biomedical-engineer", "charge-provider"];

/** When nobody of a role is on duty, said out, because a gap in a roster is what is looked for in it. */
export function coverageOf(people: readonly PersonDay[]): Coverage[] {
  return CALLED.map((role) => ({
    role,
    gaps: gapsOf(people.flatMap(({ stretches }) => stretches.filter((stretch) => stretch.role === role))),
  }));
}

function gapsOf(stretches: readonly Stretch[]): Stretch[] {
  const gaps: Stretch[] = [];
  let reached = 0;
  for (const { from, to } of [...stretches].sort((left, right) => left.from - right.from)) {
    if (from > reached) gaps.push({ from: reached, to: from });
    reached = Math.max(reached, to);
  }
  if (reached < DAY) gaps.push({ from: reached, to: DAY });
  return gaps;
}

export const timeText = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
