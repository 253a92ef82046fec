import {
  type ExportedEntry,
  type HeadKey,
  type HistoryExport,
  headText,
  type SignedHead,
} from "@/lib/domain/history/model";
import { type Hash, type MerkleTree, sameHash } from "@/lib/domain/merkle";
import { done, type Outcome, refused } from "@/lib/domain/outcome";

/** What a verifier needs besides the file: hashing and signatures are not of this layer. */
export interface VerifyingTools {
  readonly tree: MerkleTree;
  readonly bytesOf: (text: string) => Uint8Array;
  readonly fromHex: (hex: string) => Hash;
  readonly toHex: (hash: Hash) => string;
  readonly keyId: (publicKey: string) => string;
  readonly isSignedBy: (publicKey: string, text: string, signature: string) => boolean;
}

export interface Verified {
  readonly entries: number;
  readonly heads: number;
  readonly size: number;
  readonly root: string;
  readonly keys: readonly string[];
}

type Wrong = Extract<Outcome<never, "invalid">, { ok: false }>;
const wrong = (message: string): Wrong => refused("invalid", message);

/** Is everything in this export as it was promised? The first thing that is not is named; nothing outside of the file is needed. */
export function verifyExport(
  exported: HistoryExport,
  tools: VerifyingTools,
  earlier: readonly SignedHead[] = [],
): Outcome<Verified, "invalid"> {
  const last = exported.heads.at(-1);
  if (!last) return wrong("The export holds no signed tree head, so nothing in it is promised by anybody.");
  const found =
    wrongKey(exported, tools) ??
    wrongHead(exported, exported.heads, tools) ??
    wrongOrder(exported.heads) ??
    wrongEntry(exported, tools) ??
    (exported.whole ? wrongWhole(exported, last, tools) : wrongSelection(exported, last, tools)) ??
    wrongConsistency(exported, tools) ??
    wrongHead(exported, earlier, tools) ??
    wrongEarlier(exported, earlier, tools);
  if (found) return found;
  return done({
    entries: exported.entries.length,
    heads: exported.heads.length,
    size: last.size,
    root: last.root,
    keys: exported.keys.map(({ id }) => id),
  });
}

function wrongKey({ keys }: HistoryExport, { keyId }: VerifyingTools): Wrong | null {
  const misnamed = keys.find(({ id, publicKey }) => keyId(publicKey) !== id);
  return misnamed ? wrong(`The key ${misnamed.id} is not the key that this name stands for.`) : null;
}

function wrongHead(
  { facility, keys }: HistoryExport,
  heads: readonly SignedHead[],
  { isSignedBy }: VerifyingTools,
): Wrong | null {
  for (const head of heads) {
    if (head.facility !== facility.id) return wrong(`The tree head of ${head.at} is of another facility.`);
    const key = keys.find(({ id }) => id === head.key);
    if (!key) return wrong(`The tree head of ${head.at} is signed by the key ${head.key}, which is not in the export.`);
    if (!wasInUse(key, head.at))
      return wrong(`The tree head of ${head.at} is signed by a key that was not in use then.`);
    if (!isSignedBy(key.publicKey, headText(head), head.signature))
      return wrong(`The signature of the tree head of ${head.at} (${head.size} entries) does not fit it.`);
  }
  return null;
}

const wasInUse = ({ madeAt, retiredAt }: HeadKey, at: string): boolean =>
  madeAt <= at && (retiredAt === null || at <= retiredAt);

function wrongOrder(heads: readonly SignedHead[]): Wrong | null {
  for (const [place, head] of heads.entries()) {
    const before = heads[place - 1];
    if (before && head.at <= before.at) return wrong(`The tree head of ${head.at} stands after a later one.`);
    if (before && head.size < before.size)
      return wrong(`The record was ${before.size} entries long at ${before.at}, and only ${head.size} at ${head.at}.`);
  }
  return null;
}

/** Each entry by itself: its own number, and the hash that it says it has. */
function wrongEntry({ entries }: HistoryExport, { tree, bytesOf, toHex }: VerifyingTools): Wrong | null {
  for (const { sequence, at, body, hash } of entries) {
    const own = frameOf(body);
    if (own?.sequence !== sequence)
      return wrong(`Entry ${sequence} holds another number, or none: it was moved or changed.`);
    if (at !== undefined && own.at !== at)
      return wrong(`Entry ${sequence} is filed under ${at}, and its text is of another time.`);
    if (toHex(tree.leafHash(bytesOf(body))) !== hash)
      return wrong(`Entry ${sequence} is not what was recorded: its text does not give its hash.`);
  }
  return null;
}

function frameOf(body: string): { sequence?: unknown; at?: unknown } | null {
  try {
    return JSON.parse(body) as { sequence?: unknown; at?: unknown } | null;
  } catch {
    return null;
  }
}

const hashesOf = (entries: readonly ExportedEntry[], { fromHex }: VerifyingTools): Hash[] =>
  entries.map(({ hash }) => fromHex(hash));

/** Nothing left out, and each head's root over the entries that it covered. The first head that does not fit says where to look. */
function wrongWhole({ entries, heads }: HistoryExport, last: SignedHead, tools: VerifyingTools): Wrong | null {
  const missing = entries.findIndex(({ sequence }, place) => sequence !== place);
  if (missing >= 0) return wrong(`Entry ${missing} is missing, or stands in another place.`);
  if (entries.length !== last.size)
    return wrong(`The export holds ${entries.length} entries; the tree head of ${last.at} promises ${last.size}.`);
  const hashes = hashesOf(entries, tools);
  for (const [place, { at, size, root }] of heads.entries()) {
    if (tools.toHex(tools.tree.root(hashes, size)) === root) continue;
    const from = heads[place - 1]?.size ?? 0;
    return wrong(`One of the entries ${from} to ${size - 1} is not what the tree head of ${at} was signed over.`);
  }
  return null;
}

function wrongSelection({ entries }: HistoryExport, last: SignedHead, tools: VerifyingTools): Wrong | null {
  const root = tools.fromHex(last.root);
  let before = -1;
  for (const { sequence, hash, proof } of entries) {
    if (sequence <= before) return wrong(`Entry ${sequence} stands after entry ${before}.`);
    before = sequence;
    const steps = (proof ?? []).map(tools.fromHex);
    if (!tools.tree.isIncluded(tools.fromHex(hash), sequence, last.size, steps, root))
      return wrong(`Entry ${sequence} is not part of the record that the tree head of ${last.at} was signed over.`);
  }
  return null;
}

function wrongConsistency({ heads, consistency }: HistoryExport, { tree, fromHex }: VerifyingTools): Wrong | null {
  if (consistency.length !== heads.length - 1)
    return wrong(`There are ${consistency.length} proofs between ${heads.length} tree heads.`);
  for (const [place, proof] of consistency.entries()) {
    const [first, second] = [heads[place], heads[place + 1]];
    if (!first || !second) continue;
    const fits = tree.isConsistent(
      first.size,
      second.size,
      fromHex(first.root),
      fromHex(second.root),
      proof.map(fromHex),
    );
    if (!fits)
      return wrong(`The record of ${second.at} does not begin with the record of ${first.at}: it was rewritten.`);
  }
  return null;
}

/** Heads that somebody kept elsewhere: the record must still begin with what they were signed over. */
function wrongEarlier(exported: HistoryExport, earlier: readonly SignedHead[], tools: VerifyingTools): Wrong | null {
  const hashes = exported.whole ? hashesOf(exported.entries, tools) : [];
  for (const head of earlier) {
    const last = exported.heads.at(-1);
    const longest = last?.size ?? 0;
    if (head.size > longest)
      return wrong(
        `The head that was kept of ${head.at} covers ${head.size} entries; this record ends at ${longest}: it was cut.`,
      );
    if (last && head.at <= last.at && !exported.heads.some(({ at }) => at === head.at))
      return wrong(`The head that was kept of ${head.at} is not among the record's own heads: it was removed there.`);
    const same = exported.heads.some(({ size, root }) => size === head.size && root === head.root);
    const fits = same || (exported.whole && sameHash(tools.tree.root(hashes, head.size), tools.fromHex(head.root)));
    if (!fits)
      return wrong(
        exported.whole
          ? `The first ${head.size} entries are not those of the head that was kept of ${head.at}: they were rewritten.`
          : `The head that was kept of ${head.at} is not among the heads of this selection; a whole export is needed to compare.`,
      );
  }
  return null;
}
