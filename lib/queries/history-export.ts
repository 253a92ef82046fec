import type { Actor } from "@/lib/auth/actor";
import { EXPORT_FORMAT, type SignedHead } from "@/lib/domain/history/model";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { ExportQuery, HeadsView } from "@/lib/schemas/history-export";
import { recordTree } from "@/lib/storage/record-tree";
import { type ExportedLeaf, headKeys, leafHashes, leavesFrom, treeHeads } from "@/lib/storage/tree-heads";
import { addDays, type Instant, instantAt, localDate, localTime, timestampOf } from "@/lib/units/time";

const PAGE = 2_000;
const hex = (hash: Uint8Array): string => Buffer.from(hash).toString("hex");

/** The keys that sign this facility's tree heads, and its newest heads: what somebody outside keeps. */
export const readHeads = (actor: Actor, reading: Reading = appReading()): Promise<HeadsView> =>
  inFacility(
    actor,
    async (tx, { scope }) => ({
      keys: await headKeys(tx, scope.facilityId),
      heads: (await treeHeads(tx, scope.facilityId, 100)).map(withoutPorts),
    }),
    reading,
  );

const withoutPorts = ({ sent: _, ...head }: SignedHead & { readonly sent: readonly string[] }): SignedHead => head;

/**
 * The record as one JSON document, piece by piece, so that its length does not matter: everything, or one room's, one person's or some
 * days' part with what joins each entry to the last head. The last head is taken just before; later entries are of the next export.
 */
export async function* exportHistory(
  actor: Actor,
  query: ExportQuery,
  reading: Reading = appReading(),
): AsyncGenerator<string> {
  const whole = Object.values(query).every((part) => part === undefined);
  const begun = await inFacility(
    actor,
    async (tx, { scope, facility }, now) => {
      const heads = (await treeHeads(tx, scope.facilityId)).map(withoutPorts);
      const size = heads.at(-1)?.size ?? 0;
      const hashes = await leafHashes(tx, scope.facilityId, size);
      return { facility, now, heads, size, hashes, keys: await headKeys(tx, scope.facilityId) };
    },
    reading,
  );
  const { facility, now, heads, size, hashes } = begun;
  const head = {
    format: EXPORT_FORMAT,
    facility: { id: facility.id, name: facility.name },
    madeAt: timestampOf(now),
    whole,
    keys: begun.keys,
    heads,
    consistency: heads.slice(1).map((next, place) => {
      const first = heads[place]?.size ?? 0;
      // A record that was cut or rewritten is exported as it is, for the verifier to say what is wrong.
      if (first > next.size || next.size > hashes.length) return [];
      return recordTree.consistencyProof(hashes, first, next.size).map(hex);
    }),
  };
  const proofOf = whole || size === 0 || size > hashes.length ? null : recordTree.prover(hashes, size);
  yield `${JSON.stringify(head).slice(0, -1)},"entries":[`;
  let first = true;
  for await (const leaf of pages(actor, reading, askedOf(query, facility.timeZone), size)) {
    const entry = proofOf ? { ...leaf, proof: proofOf(leaf.sequence).map(hex) } : leaf;
    yield `${first ? "" : ","}\n${JSON.stringify(entry)}`;
    first = false;
  }
  yield "\n]}\n";
}

interface Asked {
  readonly room?: string | undefined;
  readonly person?: string | undefined;
  readonly from?: Instant | undefined;
  readonly to?: Instant | undefined;
}

/** Days are the facility's own, both ends included. */
function askedOf({ room, person, from, to }: ExportQuery, zone: string): Asked {
  const midnight = localTime("00:00");
  return {
    room,
    person,
    from: from && instantAt(zone, localDate(from), midnight),
    to: to && instantAt(zone, addDays(localDate(to), 1), midnight),
  } as Asked;
}

async function* pages(actor: Actor, reading: Reading, asked: Asked, below: number): AsyncGenerator<ExportedLeaf> {
  let after = -1;
  for (;;) {
    const seen = after;
    const page = await inFacility(
      actor,
      (tx, { scope }) => leavesFrom(tx, scope.facilityId, { after: seen, below, limit: PAGE, ...asked }),
      reading,
    );
    yield* page;
    const last = page.at(-1);
    if (!last || page.length < PAGE) return;
    after = last.sequence;
  }
}
