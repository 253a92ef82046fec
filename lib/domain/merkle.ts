/**
 * The Merkle tree of RFC 9162, section 2.1, over hashes that are handed in. A leaf is hashed as H(00 || bytes), a node as
 * H(01 || left || right), so that no record can pass for a node; the empty tree's root is the hash of nothing.
 */
export type Hash = Uint8Array;
export type HashFunction = (bytes: Uint8Array) => Hash;

const LEAF = Uint8Array.of(0);
const NODE = Uint8Array.of(1);

const joined = (...parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

export const sameHash = (left: Hash, right: Hash): boolean =>
  left.length === right.length && left.every((byte, place) => byte === right[place]);

/** The largest power of two below n, for n > 1: where RFC 9162 splits a tree. */
function splitOf(n: number): number {
  let k = 1;
  while (k * 2 < n) k *= 2;
  return k;
}

export interface MerkleTree {
  leafHash(bytes: Uint8Array): Hash;
  /** The root over the first `size` leaves; over all of them if not given. */
  root(leaves: readonly Hash[], size?: number): Hash;
  /** The root from those of the perfect subtrees, largest first: all that is kept of a tree that only grows. */
  rootOfSubtrees(subtrees: readonly Hash[]): Hash;
  /** The perfect subtrees of a tree of that size after one more leaf. */
  grown(subtrees: readonly Hash[], size: number, leaf: Hash): Hash[];
  /** Section 2.1.3.1: what joins one leaf to the root of a tree of that size. */
  inclusionProof(leaves: readonly Hash[], index: number, size: number): Hash[];
  /** The same for many leaves of one tree: what they share is hashed once. */
  prover(leaves: readonly Hash[], size: number): (index: number) => Hash[];
  /** Section 2.1.3.2. */
  isIncluded(leaf: Hash, index: number, size: number, proof: readonly Hash[], root: Hash): boolean;
  /** Section 2.1.4.1: what shows that the first tree is the beginning of the second. */
  consistencyProof(leaves: readonly Hash[], first: number, second: number): Hash[];
  /** Section 2.1.4.2. */
  isConsistent(first: number, second: number, firstRoot: Hash, secondRoot: Hash, proof: readonly Hash[]): boolean;
}

type Subtree = (from: number, to: number) => Hash;

/** The tree over one hash function; SHA-256 in everything of ours. */
export function merkleTree(hash: HashFunction): MerkleTree {
  const node = (left: Hash, right: Hash): Hash => hash(joined(NODE, left, right));
  const rootOf = (leaves: readonly Hash[], from: number, to: number): Hash => {
    const n = to - from;
    if (n === 0) return hash(new Uint8Array());
    if (n === 1) return leafAt(leaves, from);
    const k = splitOf(n);
    return node(rootOf(leaves, from, from + k), rootOf(leaves, from + k, to));
  };
  const path = (subtree: Subtree, index: number, from: number, to: number): Hash[] => {
    const n = to - from;
    if (n <= 1) return [];
    const k = splitOf(n);
    return index < k
      ? [...path(subtree, index, from, from + k), subtree(from + k, to)]
      : [...path(subtree, index - k, from + k, to), subtree(from, from + k)];
  };
  const proverOf = (leaves: readonly Hash[], size: number) => {
    const known = new Map<string, Hash>();
    const subtree: Subtree = (from, to) => {
      const key = `${from}:${to}`;
      const kept = known.get(key);
      if (kept) return kept;
      const k = splitOf(to - from);
      const root = to - from === 1 ? leafAt(leaves, from) : node(subtree(from, from + k), subtree(from + k, to));
      known.set(key, root);
      return root;
    };
    const whole = within(size, 1, leaves.length);
    return (index: number) => path(subtree, within(index, 0, whole - 1), 0, whole);
  };
  const subproof = (leaves: readonly Hash[], m: number, from: number, to: number, whole: boolean): Hash[] => {
    const n = to - from;
    if (m === n) return whole ? [] : [rootOf(leaves, from, to)];
    const k = splitOf(n);
    return m <= k
      ? [...subproof(leaves, m, from, from + k, whole), rootOf(leaves, from + k, to)]
      : [...subproof(leaves, m - k, from + k, to, false), rootOf(leaves, from, from + k)];
  };
  return {
    leafHash: (bytes) => hash(joined(LEAF, bytes)),
    root: (leaves, size = leaves.length) => rootOf(leaves, 0, within(size, 0, leaves.length)),
    rootOfSubtrees: (subtrees) => {
      const [last, ...rest] = [...subtrees].reverse();
      return last ? rest.reduce((right, left) => node(left, right), last) : hash(new Uint8Array());
    },
    grown: (subtrees, size, leaf) => {
      const next = [...subtrees];
      let added = leaf;
      for (let rest = size; isOdd(rest); rest = half(rest)) {
        const left = next.pop();
        if (!left) throw new RangeError(`a tree of ${size} leaves has more perfect subtrees than ${subtrees.length}`);
        added = node(left, added);
      }
      return [...next, added];
    },
    inclusionProof: (leaves, index, size) => proverOf(leaves, size)(index),
    prover: proverOf,
    isIncluded: (leaf, index, size, proof, root) => climbs(node, leaf, index, size, proof, root),
    consistencyProof: (leaves, first, second) =>
      first === 0 ? [] : subproof(leaves, within(first, 0, second), 0, within(second, 0, leaves.length), true),
    isConsistent: (first, second, firstRoot, secondRoot, proof) =>
      goesOn(node, hash, { first, second, firstRoot, secondRoot }, proof),
  };
}

function leafAt(leaves: readonly Hash[], index: number): Hash {
  const leaf = leaves[index];
  if (!leaf) throw new RangeError(`there is no leaf ${index} among ${leaves.length}`);
  return leaf;
}

function within(value: number, least: number, most: number): number {
  if (!Number.isInteger(value) || value < least || value > most)
    throw new RangeError(`${value} is not a whole number from ${least} to ${most}`);
  return value;
}

type Node = (left: Hash, right: Hash) => Hash;
/** Halves without bits: a tree may have more leaves than a 32-bit number. */
const half = (n: number): number => Math.floor(n / 2);
const isOdd = (n: number): boolean => n % 2 === 1;

function climbs(node: Node, leaf: Hash, index: number, size: number, proof: readonly Hash[], root: Hash): boolean {
  if (index < 0 || index >= size) return false;
  let at = index;
  let last = size - 1;
  let climbed = leaf;
  for (const step of proof) {
    if (last === 0) return false;
    if (isOdd(at) || at === last) {
      climbed = node(step, climbed);
      while (!isOdd(at) && at !== 0) {
        at = half(at);
        last = half(last);
      }
    } else climbed = node(climbed, step);
    at = half(at);
    last = half(last);
  }
  return last === 0 && sameHash(climbed, root);
}

interface Trees {
  readonly first: number;
  readonly second: number;
  readonly firstRoot: Hash;
  readonly secondRoot: Hash;
}

function goesOn(node: Node, hash: HashFunction, trees: Trees, proof: readonly Hash[]): boolean {
  const { first, second, firstRoot, secondRoot } = trees;
  if (first > second || first < 0) return false;
  if (first === second) return proof.length === 0 && sameHash(firstRoot, secondRoot);
  if (first === 0) return proof.length === 0 && sameHash(firstRoot, hash(new Uint8Array()));
  const steps = isPowerOfTwo(first) ? [firstRoot, ...proof] : [...proof];
  let at = first - 1;
  let last = second - 1;
  while (isOdd(at)) {
    at = half(at);
    last = half(last);
  }
  const [begin, ...rest] = steps;
  if (!begin) return false;
  let old = begin;
  let young = begin;
  for (const step of rest) {
    if (last === 0) return false;
    if (isOdd(at) || at === last) {
      old = node(step, old);
      young = node(step, young);
      while (!isOdd(at) && at !== 0) {
        at = half(at);
        last = half(last);
      }
    } else young = node(young, step);
    at = half(at);
    last = half(last);
  }
  return last === 0 && sameHash(old, firstRoot) && sameHash(young, secondRoot);
}

function isPowerOfTwo(n: number): boolean {
  let k = 1;
  while (k < n) k *= 2;
  return k === n;
}
