"use client";

import { useQuery } from "@tanstack/react-query";
import type { Board } from "@/lib/schemas/board";
import type { SparesView } from "@/lib/schemas/moves";
import { viewOrThrow } from "./api.client";

export interface KnownWorkstation {
  readonly id: string;
  readonly tag: string;
  readonly model: string;
  /** The room or store where it stands by the records. */
  readonly place: string;
}

/** Every workstation on record with where it stands; undefined until it is known. */
export function useWorkstations(wanted: boolean) {
  return useQuery({ queryKey: ["workstations"], queryFn: readWorkstations, enabled: wanted, staleTime: 30_000 });
}

async function readWorkstations(): Promise<KnownWorkstation[]> {
  const { rooms } = await viewOrThrow<Board>("/api/v1/board");
  const inRooms = rooms.flatMap(({ name, workstation }) => (workstation ? [{ ...workstation, place: name }] : []));
  const [first] = rooms;
  if (!first) return inRooms;
  const { suitable, unsuitable } = await viewOrThrow<SparesView>(`/api/v1/rooms/${first.roomId}/spares`);
  const inStores = [...suitable, ...unsuitable].map(({ workstationId, tag, model, store }) => ({
    id: workstationId,
    tag,
    model,
    place: store?.name ?? "in no room",
  }));
  return [...inRooms, ...inStores];
}

/** The one with exactly this number on its label, however it was typed. */
export const withTag = (workstations: readonly KnownWorkstation[], tag: string): KnownWorkstation | null =>
  workstations.find((one) => plain(one.tag) === plain(tag)) ?? null;

/** "aw 7" finds AW-07 in a list, and is not taken for it. */
export const likeTag = (workstations: readonly KnownWorkstation[], typed: string): KnownWorkstation[] =>
  workstations.filter(({ tag }) => plain(tag).includes(plain(typed)));

const plain = (tag: string): string => tag.toLowerCase().replace(/[^a-z0-9]/g, "");
