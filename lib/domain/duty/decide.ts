import type { DutyNow, DutySpan, OnDuty, RosterSpan } from "@/lib/domain/duty/model";
import type { Role } from "@/lib/domain/vocabulary";
import { addDays, type Instant, instant, instantAt, type LocalDate } from "@/lib/units/time";

/** A roster's stretch on the facility's own clocks: on a night on which these change it is as long as the clocks make it. */
export function spanIn(timeZone: string, date: LocalDate, { role, from, to }: RosterSpan): DutySpan {
  const ends = to <= from ? addDays(date, 1) : date;
  return { role, from: instantAt(timeZone, date, from), to: instantAt(timeZone, ends, to) };
}

/** Stretches of one person, overlapping and touching ones of the same role as one; in order of their beginning. */
export function merged(spans: readonly DutySpan[]): DutySpan[] {
  const result: DutySpan[] = [];
  const inOrder = spans
    .filter(({ from, to }) => to > from)
    .sort((left, right) => left.from - right.from || left.to - right.to);
  for (const span of inOrder) {
    const at = result.findIndex(({ role, to }) => role === span.role && to >= span.from);
    const before = result[at];
    if (before === undefined) result.push(span);
    else result[at] = { ...before, to: instant(Math.max(before.to, span.to)) };
  }
  return result;
}

/** What of these stretches no other roster says already, as the end of the night before: together they say the same, and nobody is on duty twice. */
export function notYetSaid(spans: readonly DutySpan[], said: readonly DutySpan[]): DutySpan[] {
  return spans.flatMap((span) =>
    said
      .filter(({ role }) => role === span.role)
      .reduce<DutySpan[]>((pieces, other) => pieces.flatMap((piece) => without(piece, other)), [span]),
  );
}

function without(piece: DutySpan, other: DutySpan): DutySpan[] {
  if (other.to <= piece.from || other.from >= piece.to) return [piece];
  return [
    { ...piece, to: other.from },
    { ...piece, from: other.to },
  ].filter(({ from, to }) => to > from);
}

/** Rows of who is on duty, one a role, as one line a person. */
export function peopleOn(
  rows: readonly { readonly personId: string; readonly name: string; readonly role: Role; readonly to: Instant }[],
): OnDuty[] {
  const people = new Map<string, OnDuty>();
  for (const { personId, name, role, to } of rows) {
    const known = people.get(personId);
    const roles = known ? [...known.roles, role] : [role];
    people.set(personId, { personId, name, roles, until: known ? instant(Math.max(known.until, to)) : to });
  }
  return [...people.values()].sort((left, right) => (left.name < right.name ? -1 : left.name > right.name ? 1 : 0));
}

/** Who of those on duty may do something that is for these roles. */
export const onDutyFor = ({ people }: DutyNow, roles: readonly Role[]): readonly OnDuty[] =>
  people.filter((person) => person.roles.some((role) => roles.includes(role)));
