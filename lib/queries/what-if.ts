import type { Actor } from "@/lib/auth/actor";
import type { Evidence } from "@/lib/domain/evidence";
import type { Judgement } from "@/lib/domain/judgement";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { departmentLasts, onReserve, storedOxygen, suppose } from "@/lib/domain/what-if/decide";
import type { Supposed, Supposition } from "@/lib/domain/what-if/model";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { sparesIn } from "@/lib/queries/spares";
import type { SupposedRoom, WhatIfChoices, WhatIfQuery, WhatIfView } from "@/lib/schemas/what-if";
import type { Tx } from "@/lib/storage/client";
import { eventPlaces } from "@/lib/storage/department-events";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { everyHolder } from "@/lib/storage/places";
import { fullOxygenInStore } from "@/lib/storage/what-if";
import { dateIn, type Instant, timestampOf } from "@/lib/units/time";

/** What would become of the rooms. The same judge on changed evidence; nothing is written. */
export const readWhatIf = (
  actor: Actor,
  query: WhatIfQuery,
  reading: Reading = appReading(),
): Promise<Outcome<WhatIfView, "not-found">> =>
  inFacility(actor, (tx, frame, now) => whatIfIn(tx, frame, now, query), reading);

/** What can be supposed here. */
export const readWhatIfChoices = (actor: Actor, reading: Reading = appReading()): Promise<WhatIfChoices> =>
  inFacility(actor, (tx, frame, now) => choicesIn(tx, frame, now), reading);

async function roomsNow(tx: Tx, frame: Frame, now: Instant): Promise<Holder[]> {
  const { rooms, workstations } = await everyHolder(tx, frame.scope.facilityId);
  const holders = await loadEvidence(tx, frame, rooms, workstations, now);
  return holders.filter(({ kind }) => kind === "room").sort((left, right) => left.walkingOrder - right.walkingOrder);
}

async function whatIfIn(
  tx: Tx,
  frame: Frame,
  now: Instant,
  query: WhatIfQuery,
): Promise<Outcome<WhatIfView, "not-found">> {
  const rooms = await roomsNow(tx, frame, now);
  const asked = await supposedOf(tx, frame, rooms, query);
  if (!asked.ok) return asked;
  const { supposed, title } = asked.value;
  const touched = rooms.flatMap(({ evidence }) => {
    const one = suppose(evidence, supposed);
    return one ? [one] : [];
  });
  return done({
    supposed: true,
    title,
    rooms: touched.map(roomView),
    reserve: supposed.what === "pipeline-fails" ? await reserveView(tx, frame, now, touched) : null,
    swap: supposed.what === "workstation-out" ? await swapView(tx, frame, now, touched[0] ?? null) : null,
    at: timestampOf(now),
  });
}

async function supposedOf(
  tx: Tx,
  frame: Frame,
  rooms: readonly Holder[],
  query: WhatIfQuery,
): Promise<Outcome<{ supposed: Supposed; title: string }, "not-found">> {
  if (query.what === "withdrawn") {
    const { part = "vaporizer", named = "" } = query;
    return done({ supposed: { what: "withdrawn", part, named }, title: `${PART_WORDS[part]} ${named} withdrawn` });
  }
  if (query.what === "workstation-out") {
    const { workstationId = "" } = query;
    const tag = rooms.find((holder) => holder.workstationId === workstationId)?.evidence.workstation?.tag;
    return tag
      ? done({ supposed: { what: "workstation-out", workstationId }, title: `${tag} out of use` })
      : refused("not-found", "No workstation with this id stands in a room.", "workstationId");
  }
  if (query.zoneId === undefined)
    return done({ supposed: { what: "pipeline-fails", zone: null }, title: "Oxygen pipeline fails now" });
  const zone = (await eventPlaces(tx, frame.scope.facilityId)).zones.find(({ id }) => id === query.zoneId);
  return zone
    ? done({ supposed: { what: "pipeline-fails", zone: zone.name }, title: `Oxygen pipeline fails now: ${zone.name}` })
    : refused("not-found", "There is no zone with this id in your facility.", "zoneId");
}

const PART_WORDS = { vaporizer: "Vaporizer", cylinder: "Cylinders", absorbent: "Absorbent" } as const;

const standing = ({ state, reasons, readyForList }: Judgement) => ({
  state,
  reason: reasons[0]?.text ?? null,
  forList: readyForList,
});

function roomView({ is, wouldBe, gone }: Supposition): SupposedRoom {
  const { room, workstation } = is.evidence;
  const before = standing(is.judgement);
  const after = standing(wouldBe.judgement);
  return {
    roomId: room?.id ?? "",
    name: room?.name ?? "",
    suite: room?.suite ?? "",
    workstation: workstation?.tag ?? null,
    occupancy: room?.occupancy ?? { state: "idle" },
    firstCase: room?.list?.firstCase ?? null,
    is: before,
    wouldBe: after,
    whenInUse: wouldBe.judgement.whenInUse,
    gone: [...gone],
    changes: before.state !== after.state || before.forList !== after.forList,
  };
}

async function reserveView(
  tx: Tx,
  frame: Frame,
  now: Instant,
  touched: readonly Supposition[],
): Promise<WhatIfView["reserve"]> {
  const evidences: Evidence[] = touched.map(({ is }) => is.evidence).filter(({ workstation }) => workstation !== null);
  const today = dateIn(frame.facility.timeZone, now);
  const store = storedOxygen(await fullOxygenInStore(tx, frame.scope.facilityId, today), frame);
  // Rooms that are closed today need nothing: what they hold is left out of the common time.
  const running = evidences.filter(({ room }) => room?.occupancy.state !== "closed");
  const lasts = (mode: "by-hand" | "on-ventilator") => {
    const answer = departmentLasts(running, store, mode);
    return answer && { firstOut: { ...answer.firstOut }, allRooms: answer.allRooms };
  };
  return {
    rooms: onReserve(running).map(({ reserve, ...rest }) => ({ ...rest, readAt: reserve?.observedAt ?? null })),
    store: { ...store },
    byHand: lasts("by-hand"),
    onVentilator: lasts("on-ventilator"),
  };
}

async function swapView(tx: Tx, frame: Frame, now: Instant, out: Supposition | null): Promise<WhatIfView["swap"]> {
  const room = out?.is.evidence.room;
  const tag = out?.is.evidence.workstation?.tag ?? "";
  const spares = room ? await sparesIn(tx, frame, now, room.id) : null;
  if (!room || !spares) return { spare: null, moves: [], others: 0 };
  const [best] = spares.suitable;
  const others = spares.suitable.length + spares.unsuitable.length - (best ? 1 : 0);
  if (!best)
    return {
      spare: null,
      moves: [
        { text: `No spare is checked and fits the list of ${room.name}: move its list, or wait.`, minutes: null },
      ],
      others,
    };
  const from = best.store?.name ?? "where it stands";
  return {
    spare: best,
    moves: [
      { text: `Take ${tag} out of ${room.name}`, minutes: null },
      { text: `Bring ${best.tag} from ${from} to ${room.name}`, minutes: spares.swapMinutes },
      ...(best.owed.length > 0
        ? [
            {
              text: `On arrival: ${best.owed.map(({ itemName }) => itemName).join(", ")}`,
              minutes: best.minutes - spares.swapMinutes,
            },
          ]
        : []),
      {
        text: `${from} is then without ${best.tag}: ${spares.suitable.length - 1} checked spares that fit are left`,
        minutes: null,
      },
    ],
    others,
  };
}

async function choicesIn(tx: Tx, frame: Frame, now: Instant): Promise<WhatIfChoices> {
  const rooms = await roomsNow(tx, frame, now);
  const { zones } = await eventPlaces(tx, frame.scope.facilityId);
  const here = rooms.flatMap(({ evidence: { workstation, room } }) =>
    workstation && room ? [{ workstation, room }] : [],
  );
  const sorted = (names: readonly string[]) => [...new Set(names)].sort();
  return {
    zones: zones.map(({ id, name }) => ({ id, name })),
    workstations: here.map(({ workstation, room }) => ({ id: workstation.id, tag: workstation.tag, room: room.name })),
    vaporizers: sorted(here.flatMap(({ workstation }) => workstation.fitted.vaporizers.map(({ tag }) => tag))),
    cylinders: sorted(here.flatMap(({ workstation }) => workstation.fitted.cylinders.map(({ serial }) => serial))),
    absorbents: sorted(
      here.flatMap(({ workstation }) => workstation.fitted.absorbent.map(({ product }) => product.name)),
    ),
  };
}
