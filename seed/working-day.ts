import { confirmCheck } from "@/lib/commands/confirm-check";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { closeRoom, endCase, startCase } from "@/lib/commands/occupancy";
import type { Severity } from "@/lib/domain/judgement";
import type { Holder } from "@/lib/storage/evidence";
import { type Instant, instantAt, type LocalDate, later, localTime, MINUTE, weekday } from "@/lib/units/time";
import { Agenda, type Doing } from "./agenda";
import type { Condition } from "./condition";
import { isWeekend, type ListLine, listFile, listOf } from "./day-list";
import { deliver } from "./delivery";
import type { Department } from "./department";
import { type Chance, chanceFrom } from "./random";
import { checkRoom, checkSpares, mendRoom, type Round, type SignedCheck, sparesOf } from "./rounds";

/** Whose department it is, and how its equipment is. */
export interface Story {
  readonly department: Department;
  readonly condition: Condition;
  readonly folder: string;
  readonly manager: string;
  readonly charge: string;
}

interface Day extends Story {
  readonly date: LocalDate;
  readonly agenda: Agenda;
  readonly chance: Chance;
  readonly rooms: readonly RoomDay[];
  readonly at: (time: string) => Instant;
}

interface RoomDay {
  readonly holder: Holder;
  readonly line: ListLine;
  readonly firstCase: Instant;
  readonly ends: Instant;
}

const MONDAY = 1;

const AT_ONCE: readonly Severity[] = ["stops", "limits", "owed"];
const EVERYTHING: readonly Severity[] = [...AT_ONCE, "due"];

/** One past day from the first technician to the last case. What it leaves behind is in order again by the evening. */
export async function workingDay(story: Story, date: LocalDate): Promise<void> {
  const { department, condition, folder } = story;
  const at = (time: string) => instantAt(department.timeZone, date, localTime(time));
  const lines = listOf(folder, date);
  await department.import(story.manager, at("04:55"), { list: listFile(date, lines) });
  const holders = await department.holders(at("05:00"));
  const byName = new Map(
    holders.flatMap((holder) => (holder.evidence.room ? [[holder.evidence.room.name, holder]] : [])),
  );
  const rooms = lines.flatMap((line): RoomDay[] => {
    const holder = byName.get(line.room);
    return holder?.workstationId ? [{ holder, line, firstCase: at(line.firstCase), ends: at(line.ends) }] : [];
  });
  const day: Day = { ...story, date, at, rooms, agenda: new Agenda(), chance: chanceFrom(`${folder} day ${date}`) };
  if (!isWeekend(date)) day.agenda.add(at("05:10"), closeOthers(day, holders));
  shareRooms(day);
  day.agenda.add(at("07:20"), lookAtSpares(day));
  if (day.chance.once(0.15)) day.agenda.add(at("10:20"), holdOne(day));
  if (weekday(date) === MONDAY) day.agenda.once(at("13:10"), () => deliver(day, at("13:10")));
  day.agenda.add(at("20:30"), tidyUp(day));
  await day.agenda.run(at("23:00"));
  const worked = new Set(rooms.map(({ holder }) => holder.id));
  for (const holder of await department.holders(at("23:00"))) if (worked.has(holder.id)) condition.wears(holder, date);
}

async function* closeOthers({ department, charge, rooms, at }: Day, holders: readonly Holder[]): Doing {
  for (const { kind, id } of holders) {
    if (kind !== "room" || rooms.some(({ holder }) => holder.id === id)) continue;
    await department.does(charge, at("05:10"), closeRoom, { roomId: id });
    yield later(at("05:10"), MINUTE);
  }
}

/** A technician takes some eight rooms, in walking order. */
function shareRooms(day: Day): void {
  const { rooms, agenda, at, department, chance } = day;
  const technicians = department.inRole("technician");
  const walking = [...rooms].sort((left, right) => left.holder.walkingOrder - right.holder.walkingOrder);
  const share = Math.max(1, Math.ceil(walking.length / technicians.length));
  for (const [index, technician] of technicians.entries()) {
    const mine = walking.slice(index * share, (index + 1) * share);
    const begins = later(at("05:16"), chance.whole(0, 9) * MINUTE);
    if (mine.length > 0) agenda.add(begins, walk(day, technician, mine, begins));
  }
}

async function* walk(day: Day, technician: string, rooms: readonly RoomDay[], from: Instant): Doing {
  const { chance } = day;
  let now = from;
  for (const room of rooms) {
    // One room in eighty is forgotten, and one in fifty waits for a key or a person until its case should have begun.
    if (chance.once(1 / 80)) continue;
    const waits = chance.once(1 / 50);
    if (waits) {
      const late = later(room.firstCase, chance.whole(4, 25) * MINUTE);
      day.agenda.add(late, checkOne(day, technician, room, late));
      continue;
    }
    now = later(yield* checkOne(day, technician, room, now), chance.whole(1, 3) * MINUTE);
    yield now;
  }
}

async function* checkOne(day: Day, technician: string, room: RoomDay, at: Instant): Doing<Instant> {
  const { department, condition, chance, agenda } = day;
  const round: Round = { department, condition, chance };
  const signed = yield* checkRoom(round, technician, room.holder, at);
  const mended = yield* mendRoom(round, technician, room.holder, signed.at, chance.once(0.7) ? EVERYTHING : AT_ONCE);
  const seen = later(room.firstCase, -chance.whole(14, 45) * MINUTE);
  const confirms = seen > mended ? seen : later(mended, 3 * MINUTE);
  agenda.add(confirms, provide(day, room, signed, confirms));
  return mended;
}

/** The spares come after the rooms, which cannot wait. */
async function* lookAtSpares({ department, condition, folder, date, at }: Day): Doing {
  const [technician] = department.inRole("technician");
  const round: Round = { department, condition, chance: chanceFrom(`${folder} spares ${date}`) };
  if (technician) yield* checkSpares(round, technician, at("07:20"));
}

/** A provider confirms and, in some rooms, says when the case begins and ends. */
async function* provide({ department, chance }: Day, room: RoomDay, check: SignedCheck, at: Instant): Doing {
  const providers = department.inRole("provider");
  const provider = providers[(room.holder.walkingOrder * 7 + chance.whole(0, 1)) % providers.length];
  if (provider === undefined) throw new Error(`${department.name} has no provider`);
  // One morning in forty nobody puts the second mark.
  if (chance.once(1 / 40)) return;
  const confirmed = await department.tries(provider, at, confirmCheck, {
    checkId: check.checkId,
    seenVersion: check.version,
  });
  if (!confirmed.ok || chance.once(0.6)) return;
  const begins = later(room.firstCase > at ? room.firstCase : at, chance.whole(-2, 9) * MINUTE);
  yield begins;
  const started = await department.tries(provider, begins, startCase, { roomId: room.holder.id });
  if (!started.ok) return;
  const ends = later(room.ends, chance.whole(-50, 20) * MINUTE);
  yield ends;
  await department.does(provider, ends, endCase, { roomId: room.holder.id });
}

const HOLDS = [
  [
    "A smell of warm plastic near the rear panel; looking at it",
    "The smell came from a lamp beside it; run for an hour without a fault",
  ],
  ["The screen restarted by itself during turnover", "Log read, one restart after a power dip, self-test passed twice"],
  ["The ventilator alarm sounded without a cause", "Alarm limits had been left narrow; set back and tested"],
] as const;

/** Somebody is not sure of a spare and has it looked at. */
async function* holdOne({ department, chance, at }: Day): Doing {
  const [engineer] = department.inRole("biomedical-engineer");
  const spares = sparesOf(await department.holders(at("10:20")));
  const spare = spares[0];
  if (!engineer || !spare?.workstationId) return;
  const [reason, found] = chance.pick(HOLDS);
  const { workstationId } = spare;
  const { holdId } = await department.does(engineer, at("10:20"), holdWorkstation, { workstationId, reason });
  yield at("13:45");
  await department.does(engineer, at("13:45"), liftHold, { workstationId, holdId, reason: found });
}

/** What is still open is done in the evening, so that the next morning begins with nothing old. */
async function* tidyUp({ department, condition, chance, rooms, at }: Day): Doing {
  const [technician] = department.inRole("technician");
  if (!technician) return;
  let now = at("20:30");
  const open = new Set((await department.openWork(now)).map(({ holderId }) => holderId));
  for (const { holder } of rooms) {
    if (!open.has(holder.id)) continue;
    now = yield* mendRoom({ department, condition, chance }, technician, holder, now, EVERYTHING);
  }
}
