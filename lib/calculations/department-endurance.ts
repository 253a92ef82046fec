import { type Litre, type LitrePerMinute, litre, type Minute, minute } from "@/lib/units/measure";
import { type Calculated, refused } from "./calculated";
import { contentsUnusable, flowUnusable } from "./endurance";

/** One room on its reserve. */
export interface RoomReserve {
  readonly room: string;
  /** Usable litres of its own cylinders. */
  readonly contents: Litre;
  readonly residual: Litre;
  /** All that it takes: fresh gas, and drive gas if it is ventilated so. */
  readonly flow: LitrePerMinute;
}

export interface DepartmentEndurance {
  /** Each room on its own cylinders, the shortest first; null for one that takes nothing. */
  readonly rooms: readonly { readonly room: string; readonly minutes: Minute | null }[];
  /** When the first room would be out without any help from the store. */
  readonly firstRoomOut: Minute;
  /** How long all rooms can go on if the store is carried to each before it runs out. */
  readonly allRooms: Minute;
  /** Litres taken from the store until then, and what lies unused in other rooms' cylinders at that moment. */
  readonly fromStore: Litre;
  readonly leftInRooms: Litre;
}

/**
 * How long a whole department lasts on cylinders after its oxygen pipeline is gone.
 *
 *   room: (contents - residual) / flow;   all rooms: the T at which sum of max(0, flow T - own) over the rooms equals the store
 *
 * in        each room's litres and flow, the litres in the store
 * out       minutes of each room, the shortest first, and of the whole with the store shared out
 * error     that of the contents. The store is shared as if it could be divided at will and carried in no time: cylinders are whole
 *           and people walk, so the time of all rooms is the most there can be
 * refuses   a department without consumption
 * source    arithmetic
 */
export function departmentEndurance(
  reserves: readonly RoomReserve[],
  store: Litre,
): Calculated<DepartmentEndurance, "no-consumption" | "flow-unusable" | "contents-unusable"> {
  const wrong = contentsUnusable({ store }) ?? firstWrong(reserves);
  if (wrong) return wrong;
  const rooms = reserves.map(standing).sort(shortestFirst);
  const using = rooms.filter(({ flow }) => flow > 0);
  const [first] = using;
  if (!first)
    return refused("no-consumption", "No room takes any gas, so nothing is consumed and no time is the answer.");
  const allRooms = sharedTime(using, store);
  const needed = (room: Standing) => Math.max(0, room.flow * allRooms - room.own);
  return {
    ok: true,
    value: {
      rooms: rooms.map(({ room, minutes }) => ({ room, minutes: Number.isFinite(minutes) ? minute(minutes) : null })),
      firstRoomOut: minute(first.minutes),
      allRooms: minute(allRooms),
      fromStore: litre(using.reduce((sum, room) => sum + needed(room), 0)),
      leftInRooms: litre(rooms.reduce((sum, room) => sum + Math.max(0, room.own - room.flow * allRooms), 0)),
    },
    method: "contents over flow, the store shared out",
    uncertainty: null,
    source: "cylinder-duration rule of respiratory care: EMS oxygen guidance sheet 2010",
  };
}

interface Standing {
  readonly room: string;
  readonly own: number;
  readonly flow: number;
  /** Infinity for a room that takes nothing. */
  readonly minutes: number;
}

function standing({ room, contents, residual, flow }: RoomReserve): Standing {
  const own = Math.max(0, contents - residual);
  return { room, own, flow, minutes: flow > 0 ? own / flow : Number.POSITIVE_INFINITY };
}

const shortestFirst = (one: Standing, other: Standing): number => {
  if (one.minutes !== other.minutes) return one.minutes < other.minutes ? -1 : 1;
  return one.room < other.room ? -1 : one.room > other.room ? 1 : 0;
};

function firstWrong(reserves: readonly RoomReserve[]) {
  for (const { room, contents, residual, flow } of reserves) {
    const wrong =
      flowUnusable({ [`flow in ${room}`]: flow }) ??
      contentsUnusable({ [`contents in ${room}`]: contents, [`residual in ${room}`]: residual });
    if (wrong) return wrong;
  }
  return null;
}

/** Rooms join those that live on the store one after another, in the order in which they run out. */
function sharedTime(shortest: readonly Standing[], store: number): number {
  let flow = 0;
  let own = 0;
  for (const [index, room] of shortest.entries()) {
    flow += room.flow;
    own += room.own;
    const together = (own + store) / flow;
    const next = shortest[index + 1];
    if (!next || together <= next.minutes) return together;
  }
  return 0;
}
