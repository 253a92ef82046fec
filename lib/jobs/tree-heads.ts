import { makeHeadKey, signWith } from "@/lib/auth/head-keys";
import { headText, type SignedHead, type TreeHead } from "@/lib/domain/history/model";
import type { HeadPort } from "@/lib/jobs/tree-head-ports";
import type { Database, Scope, Tx } from "@/lib/storage/client";
import { recordTree } from "@/lib/storage/record-tree";
import { facilityScopes } from "@/lib/storage/sessions";
import {
  frontier,
  headSent,
  insertHead,
  type KeyInUse,
  keyInUse,
  lockHeads,
  replaceKey,
  treeHeads,
} from "@/lib/storage/tree-heads";
import { DAY, HOUR, type Instant, instant, instantOf, timestampOf } from "@/lib/units/time";

/** How often a facility's record is promised, whether or not anything was added: silence would look like a cut. */
const EVERY = HOUR;
/** A key older than this signs no more. Common practice, no source. */
const KEY_LIFE = 365 * DAY;
/** A head that could not be sent is tried again; older ones than these are in every export anyway. */
const MOST_UNSENT = 50;

export interface Heads {
  readonly database: Database;
  readonly now: () => Instant;
  /** Seals the private keys; see lib/auth/head-keys.ts. */
  readonly secret: string;
  readonly ports: readonly HeadPort[];
  readonly report: (problem: string) => void;
}

/** Signs the record of one facility as it is at this moment. */
export function takeHead({ database, now, secret }: Heads, scope: Scope): Promise<SignedHead> {
  return database.inScope(scope, async (tx) => {
    await lockHeads(tx, scope.facilityId);
    const [before] = await treeHeads(tx, scope.facilityId, 1);
    const at = instant(Math.max(now(), before ? instantOf(before.at) + 1 : 0));
    const { size, nodes } = await frontier(tx, scope.facilityId);
    // What every command kept up, not what the leaves say now.
    const root = Buffer.from(recordTree.rootOfSubtrees(nodes)).toString("hex");
    const head: TreeHead = { facility: scope.facilityId, at: timestampOf(at), size, root };
    const signed = await signedBy(tx, scope.facilityId, head, at, secret);
    await insertHead(tx, signed);
    return signed;
  });
}

async function signedBy(tx: Tx, facilityId: string, head: TreeHead, at: Instant, secret: string): Promise<SignedHead> {
  const text = headText(head);
  const known = await keyInUse(tx, facilityId);
  const by = known && signatureOf(known, text, at, secret);
  if (known && by) return { ...head, key: known.id, signature: by };
  const key = makeHeadKey(secret);
  await replaceKey(tx, facilityId, key, at);
  const signature = signWith(key.sealed, secret, text);
  if (!signature) throw new Error("a key that was just made does not open");
  return { ...head, key: key.id, signature: Buffer.from(signature).toString("base64") };
}

/** Null when the key is too old, or was sealed with another secret of the server: then a new one begins. */
function signatureOf(key: KeyInUse, text: string, at: Instant, secret: string): string | null {
  if (!key.sealed || at - key.madeAt > KEY_LIFE) return null;
  const signature = signWith(key.sealed, secret, text);
  return signature && Buffer.from(signature).toString("base64");
}

/** Every facility whose last head is an hour old gets one; what has not been sent is sent. Several instances may do this at once. */
export async function publishHeads(heads: Heads): Promise<number> {
  let taken = 0;
  for (const scope of await facilityScopes(heads.database)) {
    const [last] = await heads.database.inScope(scope, (tx) => treeHeads(tx, scope.facilityId, 1));
    if (!last || heads.now() - instantOf(last.at) >= EVERY) {
      await takeHead(heads, scope);
      taken += 1;
    }
    await sendHeads(heads, scope);
  }
  return taken;
}

async function sendHeads({ database, ports, report }: Heads, scope: Scope): Promise<void> {
  if (ports.length === 0) return;
  const newest = await database.inScope(scope, (tx) => treeHeads(tx, scope.facilityId, MOST_UNSENT));
  for (const { sent, ...head } of newest) {
    for (const port of ports.filter(({ name }) => !sent.includes(name))) {
      try {
        await port.send(head);
        await database.inScope(scope, (tx) => headSent(tx, scope.facilityId, head.at, port.name));
      } catch (problem) {
        report(
          `the tree head of ${head.at} was not sent by ${port.name}: ${problem instanceof Error ? problem.message : "no reason given"}`,
        );
        return;
      }
    }
  }
}
