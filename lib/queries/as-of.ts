import type { Actor } from "@/lib/auth/actor";
import { decideMoment, differences, stillStood } from "@/lib/domain/as-of/decide";
import { boardSummary } from "@/lib/domain/board-summary";
import { type CheckDay, checkDayAt, checkDayOn } from "@/lib/domain/check-day";
import { judge } from "@/lib/domain/judge";
import { ENGINE_VERSION, type Judgement, type Mark } from "@/lib/domain/judgement";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Stood } from "@/lib/domain/readiness-log";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { GAS_NAMES } from "@/lib/domain/wording";
import { isId } from "@/lib/queries/evidence";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { PastBoard, PastDay, PastRoom, PastRoomView } from "@/lib/schemas/as-of";
import { frameAt, holdersAt } from "@/lib/storage/as-of";
import type { Tx } from "@/lib/storage/client";
import type { Holder } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { asWho, namesOf } from "@/lib/storage/names";
import {
  busyBetween,
  type LoggedChange,
  lastChanges,
  logBegins,
  roomsSince,
  roomsStood,
} from "@/lib/storage/readiness-log";
import { type Instant, instant, instantOf, type LocalDate, timestampOf } from "@/lib/units/time";

type Past<View> = Outcome<View, "invalid" | "not-found">;

/** All rooms as they were known at a moment. */
export const readPastBoard = (actor: Actor, at: string, reading: Reading = appReading()): Promise<Past<PastBoard>> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const moment = await momentOf(tx, frame, at, now);
      if (!moment.ok) return moment;
      const rooms = await roomsAt(tx, frame, moment.value, null);
      return done({ facility: frame.facility, asOf: timestampOf(moment.value), rooms, at: timestampOf(now) });
    },
    reading,
  );

/** One room as it was known at a moment, with the log's own line beside it. */
export const readPastRoom = (
  actor: Actor,
  roomId: string,
  at: string,
  reading: Reading = appReading(),
): Promise<Past<PastRoomView>> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const moment = await momentOf(tx, frame, at, now);
      if (!moment.ok) return moment;
      const [room] = isId(roomId) ? await roomsAt(tx, frame, moment.value, [roomId]) : [];
      if (!room) return refused("not-found", "There was no room with this id in your facility.", "id");
      return done({ facility: frame.facility, asOf: timestampOf(moment.value), room, at: timestampOf(now) });
    },
    reading,
  );

/** One check day by the log of changes: what a slider goes over. */
export const readPastDay = (actor: Actor, date: LocalDate | null, reading: Reading = appReading()): Promise<PastDay> =>
  inFacility(actor, (tx, frame, now) => pastDayIn(tx, frame, now, date), reading);

async function momentOf(tx: Tx, frame: Frame, text: string, now: Instant): Promise<Outcome<Instant, "invalid">> {
  const begins = await logBegins(tx, frame.scope.facilityId);
  return decideMoment(instantOf(text), now, begins ?? now);
}

async function roomsAt(tx: Tx, frame: Frame, at: Instant, only: readonly string[] | null): Promise<PastRoom[]> {
  const then = await frameAt(tx, frame.scope, at);
  const holders = (await holdersAt(tx, then, at, only)).filter(({ kind }) => kind === "room");
  const ids = holders.map(({ id }) => id);
  const logged = await lastChanges(tx, frame.scope.facilityId, ids, at);
  const judged = holders
    .map((holder) => ({ holder, judgement: judge(holder.evidence) }))
    .sort((left, right) => left.holder.walkingOrder - right.holder.walkingOrder);
  const signed = judged.flatMap(({ judgement: { marks } }) => [marks.equipment?.by, marks.provider?.by]);
  const who = asWho(await namesOf(tx, [...new Set(signed.flatMap((one) => (one ? [one] : [])))]));
  return judged.map((one) => pastRoomOf(one.holder, one.judgement, logged.get(one.holder.id) ?? null, who, then));
}

function pastRoomOf(
  { evidence, id }: Holder,
  judgement: Judgement,
  logged: LoggedChange | null,
  who: (id: string) => string,
  frame: Frame,
): PastRoom {
  const { room, workstation } = evidence;
  const named = (mark: Mark | null) => mark && { name: who(mark.by), at: mark.at };
  const { cylinders = [], vaporizers = [], absorbent = [] } = workstation?.fitted ?? {};
  return {
    roomId: id,
    name: room?.name ?? "",
    suite: room?.suite ?? "",
    workstation: workstation && { id: workstation.id, tag: workstation.tag, model: workstation.model.name },
    occupancy: room?.occupancy ?? { state: "idle" },
    firstCase: room?.list?.firstCase ?? null,
    state: judgement.state,
    marks: { equipment: named(judgement.marks.equipment), provider: named(judgement.marks.provider) },
    reasons: judgement.reasons.map(({ rule, severity, text }) => ({ rule, severity, text })),
    limits: [...judgement.limits],
    owed: judgement.owed.length,
    readyForList: judgement.readyForList,
    reserve: boardSummary(evidence, judgement).reserve,
    fitted: [
      ...cylinders.map(({ gas, size, serial, position }) => ({
        what: `${GAS_NAMES[gas]} ${size}, ${serial}`,
        where: `yoke ${position}`,
      })),
      ...vaporizers.map(({ agent, tag, mount }) => ({ what: `${agent}, ${tag}`, where: `mount ${mount}` })),
      ...absorbent.map(({ product, tag }) => ({ what: `${product.name}, ${tag}`, where: "absorber" })),
    ],
    logged: logged && loggedOf(logged, judgement, instantOf(evidence.now), frame),
  };
}

function loggedOf(logged: LoggedChange, replayed: Judgement, at: Instant, frame: Frame): PastRoom["logged"] {
  const differ = differences(logged.judgement, replayed);
  const stood = stillStood(logged.judgement, checkDayAt(checkClock(frame), logged.at).to, at);
  const agrees =
    differ.length === 0
      ? "same"
      : logged.engineVersion !== ENGINE_VERSION
        ? "other-rules"
        : stood
          ? "differs"
          : "overtaken";
  return {
    at: timestampOf(logged.at),
    cause: logged.cause,
    state: logged.judgement.state,
    engine: logged.engineVersion,
    settings: logged.settingsVersion,
    agrees,
    differences: agrees === "differs" ? [...differ] : [],
  };
}

async function pastDayIn(tx: Tx, frame: Frame, now: Instant, date: LocalDate | null): Promise<PastDay> {
  const { facilityId } = frame.scope;
  const clock = checkClock(frame);
  const today = checkDayAt(clock, now);
  const day: CheckDay = date === null || date > today.date ? today : checkDayOn(clock, date);
  const to = instant(Math.min(day.to, now));
  const rooms = await roomsSince(tx, facilityId, day.from);
  const stood = await turnedByClock(tx, frame, await roomsStood(tx, facilityId, day.from, to), { ...day, to });
  const busy = await busyBetween(tx, facilityId, day.from, to);
  const then = await frameAt(tx, frame.scope, to);
  const lists = new Map((await holdersAt(tx, then, to)).map(({ id, evidence }) => [id, evidence.room?.list ?? null]));
  return {
    facility: frame.facility,
    date: day.date,
    from: timestampOf(day.from),
    to: timestampOf(to),
    rooms: rooms.map(({ id, name }) => ({
      roomId: id,
      name,
      firstCase: lists.get(id)?.firstCase ?? null,
      busy: busy
        .filter(({ roomId }) => roomId === id)
        .map((one) => ({
          state: one.state,
          from: timestampOf(one.from),
          to: one.to === null ? null : timestampOf(one.to),
        })),
      stretches: (stood.get(id) ?? []).map((one) => ({
        from: timestampOf(one.from),
        to: one.to === null ? null : timestampOf(one.to),
        state: one.state,
        startable: one.startable,
        headline: one.reasons[0]?.text ?? null,
        more: Math.max(0, one.reasons.length - 1),
      })),
    })),
    at: timestampOf(now),
  };
}

/** So often a stretch is looked at again after the clock has turned it; a room has few such moments between two lines of its log. */
const MOST_TURNS = 4;

type Log = ReadonlyMap<string, readonly Stood[]>;

/** Where the clock overtook a line before the next one was written, what every board then judged for itself is set in. */
async function turnedByClock(
  tx: Tx,
  frame: Frame,
  log: Log,
  day: { readonly from: Instant; readonly to: Instant },
): Promise<Log> {
  let stood = log;
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const overtaken = new Map<Instant, string[]>();
    for (const [room, stretches] of stood) {
      for (const one of stretches) {
        const at = turnsAt(one, day.to);
        if (at !== null) overtaken.set(at, [...(overtaken.get(at) ?? []), room]);
      }
    }
    if (overtaken.size === 0) return stood;
    const judged = new Map<string, Judgement>();
    for (const [at, rooms] of overtaken) {
      for (const { id, evidence } of await holdersAt(tx, await frameAt(tx, frame.scope, at), at, rooms))
        judged.set(`${id} ${at}`, judge(evidence));
    }
    stood = new Map(
      [...stood].map(([room, stretches]) => [room, stretches.flatMap((one) => split(one, room, day.to, judged))]),
    );
  }
  return stood;
}

/** The moment inside a stretch at which the clock turned it; null when it stood to its end. */
function turnsAt({ from, to, goodUntil }: Stood, ends: Instant): Instant | null {
  if (goodUntil === undefined || goodUntil === null || goodUntil <= from) return null;
  return goodUntil < (to ?? ends) ? goodUntil : null;
}

function split(stretch: Stood, room: string, ends: Instant, judged: ReadonlyMap<string, Judgement>): Stood[] {
  const at = turnsAt(stretch, ends);
  const judgement = at === null ? undefined : judged.get(`${room} ${at}`);
  if (at === null || judgement === undefined) return [{ ...stretch, goodUntil: null }];
  const limitsAllowed = judgement.reasons.every(
    ({ severity, allowedUntil }) => severity !== "limits" || allowedUntil !== null,
  );
  const startable =
    judgement.state === "ready" || (judgement.state === "ready-limited" && judgement.readyForList && limitsAllowed);
  const turned: Stood = {
    from: at,
    to: stretch.to,
    goodUntil: judgement.goodUntil === null ? null : instantOf(judgement.goodUntil),
    state: judgement.state,
    startable,
    reasons: judgement.reasons.map(({ rule, severity, subject, text }) => ({
      rule,
      severity,
      subjectId: subject.id,
      text,
    })),
  };
  return [{ ...stretch, to: at, goodUntil: null }, turned];
}
