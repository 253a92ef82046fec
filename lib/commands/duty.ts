import { type Context, command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { merged, notYetSaid, spanIn } from "@/lib/domain/duty/decide";
import type { DutySpan, RosterSpan } from "@/lib/domain/duty/model";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { importDutyReply, importDutyRequest, setDutyReply, setDutyRequest } from "@/lib/schemas/duty";
import { type DutyLine, readDutyCsv } from "@/lib/schemas/duty-csv";
import type { Tx } from "@/lib/storage/client";
import { type DutyOfPerson, type DutyPerson, dutyAround, dutyPeople, replaceDuty } from "@/lib/storage/duty";
import { HOUR, instant, type LocalDate, later, localDate, localTime } from "@/lib/units/time";

interface Wanted {
  readonly person: DutyPerson;
  readonly date: LocalDate;
  readonly spans: readonly RosterSpan[];
}

/** One person's duty of one day, as a whole: what was said for that day before is replaced. */
export const setDuty = command({
  name: "set-duty",
  summary: "Say when somebody is on duty on a day and in which role; no stretch at all means off duty.",
  schema: setDutyRequest,
  reply: setDutyReply,
  locks: () => ({}),
  load: async (tx, { personId }, { begun }) =>
    (await dutyPeople(tx, begun.scope.facilityId, { ids: [personId] }))[0] ?? null,
  decide: (person, { date, spans }) => {
    if (!person) return refused("not-found", "There is no person with this id in your organisation.", "personId");
    const wrong = spans.findIndex(({ role }) => !person.roles.includes(role));
    if (wrong >= 0) return refused("invalid", roleMissing(person, spans[wrong]?.role ?? ""), `spans.${wrong}.role`);
    return done({ person, date: localDate(date), spans: spans.map(spanOf) });
  },
  apply: async (tx, wanted, { date, personId, spans }, context) => {
    const stored = await store(tx, [wanted], context);
    if (stored === null) return rosterTaken();
    const said = spans.map(({ role, from, to }) => `${role.replaceAll("-", " ")} ${from} to ${to}`).join(", ");
    return {
      reply: { date, personId, spans },
      note: {
        text: `On duty on ${date}: ${wanted.person.name}, ${said || "not at all"}`,
        data: { date, personId, spans },
      },
    };
  },
});

/** A roster from its file: all of it or nothing. Each person's day in it replaces what was said for that day before. */
export const importDuty = command({
  name: "import-duty",
  summary: "Import a duty roster (date, user id, role, from, to): everything or nothing.",
  schema: importDutyRequest,
  reply: importDutyReply,
  locks: () => ({}),
  load: async (tx, { csv }, { begun, now }) => {
    const read = readDutyCsv(csv, checkDayAt(checkClock(begun), now).date);
    const userIds = [...new Set(read.lines.map(({ userId }) => userId))];
    return { ...read, people: await dutyPeople(tx, begun.scope.facilityId, { userIds }) };
  },
  decide: ({ lines, problems, people }) => {
    const byUserId = new Map(people.map((person) => [person.userId.toLowerCase(), person]));
    const all = [...problems, ...lines.flatMap((line) => personProblem(line, byUserId))].sort(
      (left, right) => left.line - right.line,
    );
    const [first] = all;
    if (first) {
      const where = `line ${first.line}${first.column === null ? "" : `, ${first.column}`}`;
      const more = all.length > 1 ? ` There are ${all.length} problems.` : "";
      return refused("invalid", `Nothing was imported. ${where}: ${first.message}${more}`, "csv");
    }
    if (lines.length === 0) return refused("invalid", "The roster has no row below its header.", "csv");
    return done(wantedOf(lines, byUserId));
  },
  apply: async (tx, wanted, _input, context) => {
    const stored = await store(tx, wanted, context);
    if (stored === null) return rosterTaken();
    const people = new Set(wanted.map(({ person }) => person.id)).size;
    const given = wanted.reduce((count, { spans }) => count + spans.length, 0);
    const dates = [...new Set(wanted.map(({ date }) => date))].sort();
    return {
      reply: { people, spans: stored, merged: Math.max(0, given - stored) },
      note: {
        text: `Imported the duty roster of ${dates.length === 1 ? dates[0] : `${dates[0]} to ${dates.at(-1)}`}: ${people} ${people === 1 ? "person" : "people"}`,
        data: { dates, people, spans: stored },
      },
    };
  },
});

const rosterTaken = () =>
  refused("moved-on", "Somebody entered the same roster in the meantime. Look at it again. Nothing was changed.");

const roleMissing = ({ name }: DutyPerson, role: string): string =>
  `${name} is not a ${role.replaceAll("-", " ")} here. Give them the role first, or choose another.`;

const spanOf = ({ role, from, to }: { role: RosterSpan["role"]; from: string; to: string }): RosterSpan => ({
  role,
  from: localTime(from),
  to: localTime(to),
});

function personProblem({ line, userId, role }: DutyLine, people: ReadonlyMap<string, DutyPerson>) {
  const person = people.get(userId.toLowerCase());
  if (!person) return [{ line, column: "user id", message: `There is nobody with the user id ${userId}.` }];
  if (!person.active) return [{ line, column: "user id", message: `${person.name} has left.` }];
  return person.roles.includes(role) ? [] : [{ line, column: "role", message: roleMissing(person, role) }];
}

function wantedOf(lines: readonly DutyLine[], people: ReadonlyMap<string, DutyPerson>): Wanted[] {
  const wanted = new Map<string, { person: DutyPerson; date: LocalDate; spans: RosterSpan[] }>();
  for (const { userId, date, role, from, to } of lines) {
    const person = people.get(userId.toLowerCase());
    if (!person) continue;
    const key = `${person.id} ${date}`;
    const day = wanted.get(key) ?? { person, date, spans: [] };
    day.spans.push({ role, from, to });
    wanted.set(key, day);
  }
  return [...wanted.values()];
}

/** Merged with one another and with what other days' rosters say, as the end of a night shift. Null when somebody else was faster. */
async function store(tx: Tx, wanted: readonly Wanted[], { begun, newId }: Context): Promise<number | null> {
  const { facilityId } = begun.scope;
  const { timeZone } = begun.facility;
  const days = wanted
    .map(({ person, date, spans }) => ({
      personId: person.id,
      date,
      spans: merged(spans.map((span) => spanIn(timeZone, date, span))),
    }))
    .sort((left, right) => (left.date < right.date ? -1 : left.date > right.date ? 1 : 0));
  const moments = days.flatMap(({ spans }) => spans.flatMap(({ from, to }) => [from, to]));
  const around =
    moments.length === 0
      ? []
      : await dutyAround(
          tx,
          facilityId,
          days.map(({ personId }) => personId),
          later(instant(moments.reduce<number>((least, at) => Math.min(least, at), Number.POSITIVE_INFINITY)), -HOUR),
          later(instant(moments.reduce<number>((most, at) => Math.max(most, at), Number.NEGATIVE_INFINITY)), HOUR),
        );
  const replaced = new Set(days.map(({ personId, date }) => `${personId} ${date}`));
  const said = new Map<string, DutySpan[]>();
  const saidOf = (personId: string) => said.get(personId) ?? [];
  for (const row of around) {
    if (!replaced.has(`${row.personId} ${row.date}`)) said.set(row.personId, [...saidOf(row.personId), row]);
  }
  const duties: DutyOfPerson[] = days.map(({ personId, date, spans }) => {
    const own = notYetSaid(spans, saidOf(personId));
    said.set(personId, [...saidOf(personId), ...own]);
    return { personId, date, spans: own };
  });
  const stored = await replaceDuty(tx, facilityId, duties, newId);
  return stored ? duties.reduce((count, { spans }) => count + spans.length, 0) : null;
}
