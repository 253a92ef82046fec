import { createHash } from "node:crypto";
import type { ClientBase } from "pg";
import { type Scope, seeScope } from "./catalogue";
import type { Root } from "./format";

const sha256 = (...parts: readonly Uint8Array[]): Uint8Array => {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest();
};
const LEAF = Uint8Array.of(0);
const NODE = Uint8Array.of(1);
const LEAVES_AT_ONCE = 2_000;

/** The roots of the perfect subtrees of a growing RFC 9162 tree, largest first: all that is needed to go on and to know its root. */
class Growing {
  size = 0;
  #nodes: Uint8Array[] = [];

  add(body: string): void {
    let node = sha256(LEAF, Buffer.from(body, "utf8"));
    for (let rest = this.size; rest % 2 === 1; rest = Math.floor(rest / 2)) {
      const left = this.#nodes.pop();
      if (!left) throw new Error("a tree lost a subtree");
      node = sha256(NODE, left, node);
    }
    this.#nodes.push(node);
    this.size += 1;
  }

  root(): string {
    const [last, ...rest] = [...this.#nodes].reverse();
    const whole = last ? rest.reduce((right, left) => sha256(NODE, left, right), last) : sha256();
    return Buffer.from(whole).toString("hex");
  }
}

/** Computed anew from the leaves themselves, and not from what was kept beside them. */
export async function rootOfLeaves(client: ClientBase, scope: Scope): Promise<Root> {
  await seeScope(client, scope);
  const tree = new Growing();
  for (;;) {
    const { rows } = await client.query<{ sequence: string; body: string }>(
      "SELECT l.sequence::text, l.body FROM history.leaf l WHERE l.facility_id = $1 AND l.sequence >= $2 ORDER BY l.sequence LIMIT $3",
      [scope.facility, tree.size, LEAVES_AT_ONCE],
    );
    for (const { sequence, body } of rows) {
      if (Number(sequence) !== tree.size) throw new Error(`entry ${tree.size} of the record is missing`);
      tree.add(body);
    }
    if (rows.length < LEAVES_AT_ONCE) return { facility: scope.facility, size: tree.size, root: tree.root() };
  }
}
