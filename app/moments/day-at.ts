import type { Readiness } from "@/lib/domain/judgement";
import type { PastDay, Stretch } from "@/lib/schemas/as-of";
import { type Instant, instantOf } from "@/lib/units/time";

type Room = PastDay["rooms"][number];

export interface RoomThen {
  readonly room: Room;
  /** Null before the room was ever judged. */
  readonly stretch: Stretch | null;
  readonly busy: "in-use" | "closed" | null;
}

const holds = ({ from, to }: { readonly from: string; readonly to: string | null }, at: Instant): boolean =>
  instantOf(from) <= at && (to === null || at < instantOf(to));

/** Every room at one moment of the day. */
export const dayAt = (day: PastDay, at: Instant): RoomThen[] =>
  day.rooms.map((room) => ({
    room,
    stretch: room.stretches.find((stretch) => holds(stretch, at)) ?? null,
    busy: room.busy.find((one) => holds(one, at))?.state ?? null,
  }));

/** "9 of 14 rooms could start or were in use": closed rooms are not counted. */
export function countThen(rooms: readonly RoomThen[]): { readonly good: number; readonly of: number } {
  const running = rooms.filter(({ busy }) => busy !== "closed");
  return {
    good: running.filter(({ stretch, busy }) => busy === "in-use" || stretch?.startable).length,
    of: running.length,
  };
}

export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly state: Readiness;
}

/** A room's day as pieces of the whole, from 0 to 1. */
export function piecesOf(room: Room, day: PastDay): Piece[] {
  const from = instantOf(day.from);
  const span = Math.max(1, instantOf(day.to) - from);
  const share = (text: string | null) =>
    text === null ? 1 : Math.min(1, Math.max(0, (instantOf(text) - from) / span));
  return room.stretches
    .map(({ from: begins, to, state }) => ({ from: share(begins), to: share(to), state }))
    .filter((piece) => piece.to > piece.from);
}
