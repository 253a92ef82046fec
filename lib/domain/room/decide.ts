import type { SuiteRecord } from "@/lib/domain/department/model";
import { keyOf } from "@/lib/domain/department-merge";
import { done, refused } from "@/lib/domain/outcome";
import type { PlaceAsked, RoomAsked, RoomKnown, StoreKnown } from "@/lib/domain/room/model";

interface Named {
  readonly id: string;
  readonly name: string;
}

/** Somebody else's name, whatever its letter case; null when the name is free. */
export const namesake = <Known extends Named>(known: readonly Known[], name: string, id: string | null): Known | null =>
  known.find((other) => other.id !== id && keyOf(other.name) === keyOf(name)) ?? null;

export interface PlacesKnown {
  readonly suites: readonly SuiteRecord[];
  readonly zones: readonly Named[];
  readonly stores: readonly StoreKnown[];
  readonly rooms: readonly RoomKnown[];
}

const WORDS: Readonly<Record<PlaceAsked["kind"], string>> = {
  suite: "suite",
  zone: "pipeline zone",
  store: "store",
};

/** A suite, a pipeline zone or a store: added, or changed. */
export function decidePlace(known: PlacesKnown, asked: PlaceAsked) {
  const { kind, placeId, name } = asked;
  const among: readonly Named[] = known[`${kind}s`];
  const was = placeId === null ? null : (among.find(({ id }) => id === placeId) ?? null);
  if (placeId !== null && was === null)
    return refused("not-found", `There is no ${WORDS[kind]} with this id in your facility.`, "placeId");
  const other = namesake(among, name, placeId);
  if (other)
    return refused("taken", `There is a ${WORDS[kind]} named ${other.name} already. Choose another name.`, "name");
  if (asked.kind === "store" && asked.suiteId !== null && !known.suites.some(({ id }) => id === asked.suiteId))
    return refused("not-found", "There is no suite with this id in your facility. Choose one of the list.", "suiteId");
  return done({ was: was?.name ?? null });
}

/** A room: added, changed, or brought back after it was retired. */
export function decideRoom(known: PlacesKnown, asked: RoomAsked) {
  const { roomId, name } = asked;
  const was = roomId === null ? null : (known.rooms.find(({ id }) => id === roomId) ?? null);
  if (roomId !== null && was === null)
    return refused("not-found", "There is no room with this id in your facility.", "roomId");
  const other = namesake(known.rooms, name, roomId);
  if (other) {
    const what = other.retired
      ? "There was a room named so, and it is retired. Bring it back, or choose"
      : "There is a room named so already. Choose";
    return refused("taken", `${other.name}: ${what} another name.`, "name");
  }
  const suite = known.suites.find(({ id }) => id === asked.suiteId);
  if (!suite)
    return refused("not-found", "There is no suite with this id in your facility. Choose one of the list.", "suiteId");
  if (asked.zoneId !== null && !known.zones.some(({ id }) => id === asked.zoneId))
    return refused(
      "not-found",
      "There is no pipeline zone with this id in your facility. Choose one of the list, or none.",
      "zoneId",
    );
  if (was?.inUse && (was.vacuum !== asked.vacuum || was.wasteGas !== asked.wasteGas || !sameGases(was, asked)))
    return refused(
      "moved-on",
      `${was.name} has a case in it: its gases, vacuum and waste gas stay as they are until the case has ended.`,
      "piped",
    );
  return done({ was, suite });
}

const sameGases = (was: RoomKnown, asked: RoomAsked): boolean =>
  was.piped.length === asked.piped.length && was.piped.every((gas) => asked.piped.includes(gas));

/** A room that is given up leaves the board; what was recorded in it stays. */
export function decideRetireRoom(known: Pick<PlacesKnown, "rooms">, roomId: string) {
  const room = known.rooms.find(({ id }) => id === roomId);
  if (!room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
  if (room.retired) return refused("already-done", `${room.name} is retired already.`, "roomId");
  if (room.inUse) return refused("moved-on", `${room.name} has a case in it. End the case first.`, "roomId");
  if (room.workstation !== null)
    return refused(
      "moved-on",
      `${room.workstation} stands in ${room.name}. Put it in a store or in another room first.`,
      "roomId",
    );
  return done(room);
}

/** Several new rooms that are alike but for their names and their places on the walk: all of them or none. */
export function decideRooms(known: PlacesKnown, asked: readonly RoomAsked[]) {
  const twice = asked.find(({ name }, at) => asked.findIndex((other) => keyOf(other.name) === keyOf(name)) < at);
  if (twice) return refused("invalid", `${twice.name} is named twice. Name each room once.`, "names");
  for (const room of asked) {
    const one = decideRoom(known, room);
    if (!one.ok) return one.field === "name" ? { ...one, field: "names" } : one;
  }
  const suite = known.suites.find(({ id }) => id === asked[0]?.suiteId);
  return suite ? done({ suite }) : refused("invalid", "Name at least one room.", "names");
}
