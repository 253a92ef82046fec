import type { ClientBase } from "pg";
import type { Hash } from "@/lib/domain/merkle";
import { recordTree } from "@/lib/storage/record-tree";
import { type Scope, seeScope } from "./catalogue";
import type { Root } from "./format";

const LEAVES_AT_ONCE = 2_000;

/** Computed anew from the leaves themselves, and not from what was kept beside them. */
export async function rootOfLeaves(client: ClientBase, scope: Scope): Promise<Root> {
  await seeScope(client, scope);
  let size = 0;
  let subtrees: Hash[] = [];
  for (;;) {
    const { rows } = await client.query<{ sequence: string; body: string }>(
      "SELECT l.sequence::text, l.body FROM history.leaf l WHERE l.facility_id = $1 AND l.sequence >= $2 ORDER BY l.sequence LIMIT $3",
      [scope.facility, size, LEAVES_AT_ONCE],
    );
    for (const { sequence, body } of rows) {
      if (Number(sequence) !== size) throw new Error(`entry ${size} of the record is missing`);
      subtrees = recordTree.grown(subtrees, size, recordTree.leafHash(Buffer.from(body, "utf8")));
      size += 1;
    }
    if (rows.length < LEAVES_AT_ONCE) {
      const root = Buffer.from(recordTree.rootOfSubtrees(subtrees)).toString("hex");
      return { facility: scope.facility, size, root };
    }
  }
}
