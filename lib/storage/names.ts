import type { Tx } from "@/lib/storage/client";

/** The names of some people of the organisation, by id. */
export async function namesOf(tx: Tx, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  if (ids.length === 0) return new Map();
  const rows = await tx.$queryRaw<
    { id: string; name: string }[]
  >`SELECT id, name FROM person WHERE id = ANY (${[...new Set(ids)]}::uuid[])`;
  return new Map(rows.map(({ id, name }) => [id, name]));
}

/** Turns the map into the question "who was that". */
export const asWho = (names: ReadonlyMap<string, string>) => (personId: string) =>
  names.get(personId) ?? "somebody else";
