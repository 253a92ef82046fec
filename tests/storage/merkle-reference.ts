import { createHash } from "node:crypto";

/** RFC 9162, section 2.1.1, word for word and from nothing of the product: what its history is held against. */
const sha256 = (...parts: Uint8Array[]) =>
  parts.reduce((hash, part) => hash.update(part), createHash("sha256")).digest();

export const leafHash = (entry: Uint8Array): Buffer => sha256(Uint8Array.of(0), entry);
export const nodeHash = (left: Uint8Array, right: Uint8Array): Buffer => sha256(Uint8Array.of(1), left, right);

/** The root over leaf hashes: split at the largest power of two smaller than their number. */
export function rootOf(leaves: readonly Buffer[]): Buffer {
  const [only, second] = leaves;
  if (only === undefined) return sha256();
  if (second === undefined) return only;
  let split = 1;
  while (split * 2 < leaves.length) split *= 2;
  return nodeHash(rootOf(leaves.slice(0, split)), rootOf(leaves.slice(split)));
}

/** The root that a frontier (the roots of its full subtrees, largest first) stands for. */
export function rootOfFrontier(nodes: readonly Buffer[]): Buffer {
  const last = nodes.at(-1);
  return last === undefined ? sha256() : nodes.slice(0, -1).reduceRight((right, left) => nodeHash(left, right), last);
}

/** RFC 8785 for what a history entry holds: keys by UTF-16 code units, no spaces, numbers and strings as ECMAScript writes them. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  const keys = Object.keys(value).sort();
  return `{${keys.map((key) => `${JSON.stringify(key)}:${canonical((value as Record<string, unknown>)[key])}`).join(",")}}`;
}
