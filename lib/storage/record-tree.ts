import { createHash } from "node:crypto";
import { merkleTree } from "@/lib/domain/merkle";

/** The tree of every facility's record: RFC 9162 over SHA-256. */
export const recordTree = merkleTree((bytes) => createHash("sha256").update(bytes).digest());
