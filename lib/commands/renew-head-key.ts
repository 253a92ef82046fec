import { makeHeadKey } from "@/lib/auth/head-keys";
import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import { renewHeadKeyReply, renewHeadKeyRequest } from "@/lib/schemas/history-export";
import { keyInUse, lockHeads, replaceKey, treeHeads } from "@/lib/storage/tree-heads";
import { instant, instantOf } from "@/lib/units/time";

export const renewHeadKey = command({
  name: "renew-head-key",
  summary: "Retire the key that signs tree heads and begin another; the old one's private half is wiped.",
  schema: renewHeadKeyRequest,
  reply: renewHeadKeyReply,
  locks: () => ({}),
  load: async (tx, _input, { begun }) => {
    await lockHeads(tx, begun.scope.facilityId);
    const [last] = await treeHeads(tx, begun.scope.facilityId, 1);
    return { key: await keyInUse(tx, begun.scope.facilityId), last: last ?? null };
  },
  decide: ({ key, last }) => {
    if (!process.env.NEXTAUTH_SECRET)
      return refused("not-allowed", "This server has no secret to seal a key with, so it signs no tree heads.");
    return done({ old: key?.id ?? null, notBefore: last ? instantOf(last.at) : 0 });
  },
  apply: async (tx, { old, notBefore }, _input, { begun, now }) => {
    const key = makeHeadKey(process.env.NEXTAUTH_SECRET ?? "");
    await replaceKey(tx, begun.scope.facilityId, key, instant(Math.max(now, notBefore)));
    return {
      reply: { keyId: key.id },
      note: {
        text: `Began a new key for tree heads: ${key.id}`,
        data: { keyId: key.id, publicKey: key.publicKey, retired: old },
      },
    };
  },
});
