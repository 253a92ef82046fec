import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { type Hash, merkleTree } from "@/lib/domain/merkle";
import { ENTRIES_HEX, ROOTS_HEX } from "@/tests/handbook/merkle";

const tree = merkleTree((bytes) => createHash("sha256").update(bytes).digest());
const hex = (hash: Hash) => Buffer.from(hash).toString("hex");
const leavesOf = (count: number): Hash[] =>
  Array.from({ length: count }, (_, place) => tree.leafHash(Buffer.from(`entry ${place}`)));
const SIZES = [1, 2, 3, 4, 5, 6, 7, 8, 9, 13, 16, 17, 31, 32, 33];

describe("the tree of RFC 9162", () => {
  it.each(ROOTS_HEX.map((root, size) => ({ size, root })))(
    "has the published root over $size leaves",
    ({ size, root }) => {
      const leaves = ENTRIES_HEX.map((leaf) => tree.leafHash(Buffer.from(leaf, "hex")));
      expect(hex(tree.root(leaves, size))).toBe(root);
    },
  );

  it("grown leaf by leaf has the published root over every number of them", () => {
    let subtrees: Hash[] = [];
    for (const [size, root] of ROOTS_HEX.entries()) {
      expect(hex(tree.rootOfSubtrees(subtrees))).toBe(root);
      const leaf = ENTRIES_HEX[size];
      if (leaf !== undefined) subtrees = tree.grown(subtrees, size, tree.leafHash(Buffer.from(leaf, "hex")));
    }
    expect(() => tree.grown([], 1, tree.leafHash(Buffer.from("x")))).toThrow(/more perfect subtrees/);
  });

  it("does not take a node for a leaf of the same bytes", () => {
    const [left, right] = leavesOf(2);
    if (!left || !right) throw new Error("two leaves");
    expect(hex(tree.leafHash(Buffer.concat([left, right])))).not.toBe(hex(tree.root([left, right])));
  });

  it("joins every leaf of every size to the root, and no other leaf, place, size or changed proof", () => {
    for (const size of SIZES) {
      const leaves = leavesOf(size);
      const root = tree.root(leaves);
      for (const [index, leaf] of leaves.entries()) {
        const proof = tree.inclusionProof(leaves, index, size);
        expect(tree.isIncluded(leaf, index, size, proof, root)).toBe(true);
        expect(tree.isIncluded(tree.leafHash(Buffer.from("other")), index, size, proof, root)).toBe(false);
        if (size > 1) expect(tree.isIncluded(leaf, (index + 1) % size, size, proof, root)).toBe(false);
        expect(tree.isIncluded(leaf, index, size, [...proof, root], root)).toBe(false);
        if (proof.length > 0) expect(tree.isIncluded(leaf, index, size, proof.slice(1), root)).toBe(false);
      }
    }
  });

  it("shows of every two sizes that the shorter record is the beginning of the longer, and not of a changed one", () => {
    const leaves = leavesOf(33);
    for (const first of [0, ...SIZES]) {
      for (const second of SIZES.filter((size) => size >= first)) {
        const proof = tree.consistencyProof(leaves, first, second);
        const roots = [tree.root(leaves, first), tree.root(leaves, second)] as const;
        expect([first, second, tree.isConsistent(first, second, ...roots, proof)]).toEqual([first, second, true]);
        if (first === 0) continue;
        const changed = [tree.leafHash(Buffer.from("changed")), ...leaves.slice(1)];
        const other = tree.root(changed, second);
        expect(tree.isConsistent(first, second, roots[0], other, tree.consistencyProof(changed, first, second))).toBe(
          false,
        );
      }
    }
  });

  it("refuses what is not there", () => {
    const leaves = leavesOf(3);
    expect(() => tree.root(leaves, 4)).toThrow(RangeError);
    expect(() => tree.inclusionProof(leaves, 3, 3)).toThrow(RangeError);
    expect(() => tree.consistencyProof(leaves, 3, 2)).toThrow(RangeError);
    expect(tree.isConsistent(3, 2, tree.root(leaves), tree.root(leaves, 2), [])).toBe(false);
  });
});
