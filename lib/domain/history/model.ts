/** What was promised about a record at a moment: how long it was, and the root over all of it. Hashes are in hexadecimal. */
export interface TreeHead {
  readonly facility: string;
  readonly at: string;
  readonly size: number;
  readonly root: string;
}

/** A head with the key that signed it and the Ed25519 signature, in base64, over the text of `headText`. */
export interface SignedHead extends TreeHead {
  readonly key: string;
  readonly signature: string;
}

/** The public half of a signing key, in base64 (32 bytes, RFC 8032), named by the beginning of its SHA-256. */
export interface HeadKey {
  readonly id: string;
  readonly publicKey: string;
  readonly madeAt: string;
  readonly retiredAt: string | null;
}

export interface ExportedEntry {
  readonly sequence: number;
  /** The time it is filed under, which its text holds as well; exports of earlier versions leave it out. */
  readonly at?: string;
  /** The exact text that was hashed. */
  readonly body: string;
  readonly hash: string;
  /** What joins it to the last head; only where the export is a selection. */
  readonly proof?: readonly string[];
}

export const EXPORT_FORMAT = "yokeboard-history-1";

/** A facility's record, or a part of it, with everything that proves it: nothing else is needed. */
export interface HistoryExport {
  readonly format: typeof EXPORT_FORMAT;
  readonly facility: { readonly id: string; readonly name: string };
  readonly madeAt: string;
  /** Every entry up to the last head, or some. */
  readonly whole: boolean;
  readonly keys: readonly HeadKey[];
  /** In the order of their times; the last one covers this export. */
  readonly heads: readonly SignedHead[];
  /** From each head to the next. */
  readonly consistency: readonly (readonly string[])[];
  readonly entries: readonly ExportedEntry[];
}

/** The text that is signed. Its keys stand in the order of RFC 8785, so that anybody can write it again. */
export const headText = ({ at, facility, root, size }: TreeHead): string =>
  JSON.stringify({ at, facility, kind: "yokeboard-tree-head-1", root, size });
