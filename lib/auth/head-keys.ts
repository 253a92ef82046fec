import {
  createCipheriv,
  createDecipheriv,
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  hkdfSync,
  type KeyObject,
  randomBytes,
  sign,
  verify,
} from "node:crypto";
import type { VerifyingTools } from "@/lib/domain/history/decide";
import { recordTree } from "@/lib/storage/record-tree";

/** A signing key as it is kept: its private half sealed with the server's secret, which the database does not know. */
export interface MadeKey {
  readonly id: string;
  readonly publicKey: string;
  readonly sealed: Uint8Array;
}

const CIPHER = "aes-256-gcm";
const NONCE = 12;
const TAG = 16;
/** What stands before the 32 bytes of an Ed25519 key in its DER form (RFC 8410). */
const SPKI = Buffer.from("302a300506032b6570032100", "hex");

export const keyIdOf = (publicKey: string): string =>
  createHash("sha256").update(Buffer.from(publicKey, "base64")).digest("hex").slice(0, 16);

export function makeHeadKey(secret: string): MadeKey {
  const { privateKey, publicKey } = generateKeyPairSync("ed25519");
  const raw = publicKey.export({ format: "der", type: "spki" }).subarray(SPKI.length).toString("base64");
  return {
    id: keyIdOf(raw),
    publicKey: raw,
    sealed: seal(privateKey.export({ format: "der", type: "pkcs8" }), secret),
  };
}

const sealingKey = (secret: string): Buffer =>
  Buffer.from(hkdfSync("sha256", secret, "yokeboard", "the key that seals keys of tree heads", 32));

function seal(plain: Buffer, secret: string): Buffer {
  const nonce = randomBytes(NONCE);
  const cipher = createCipheriv(CIPHER, sealingKey(secret), nonce);
  const hidden = Buffer.concat([cipher.update(plain), cipher.final()]);
  return Buffer.concat([nonce, cipher.getAuthTag(), hidden]);
}

/** Null when the server's secret is not the one it was sealed with: then a new key must be made. */
function unseal(sealed: Uint8Array, secret: string): KeyObject | null {
  const bytes = Buffer.from(sealed);
  const decipher = createDecipheriv(CIPHER, sealingKey(secret), bytes.subarray(0, NONCE));
  decipher.setAuthTag(bytes.subarray(NONCE, NONCE + TAG));
  try {
    const der = Buffer.concat([decipher.update(bytes.subarray(NONCE + TAG)), decipher.final()]);
    return createPrivateKey({ key: der, format: "der", type: "pkcs8" });
  } catch {
    return null;
  }
}

/** The Ed25519 signature (RFC 8032) of a text; null when the key cannot be opened with this secret. */
export function signWith(sealed: Uint8Array, secret: string, text: string): Uint8Array | null {
  const key = unseal(sealed, secret);
  return key ? sign(null, Buffer.from(text, "utf8"), key) : null;
}

export function isSignedBy(publicKey: string, text: string, signature: string): boolean {
  const raw = Buffer.from(publicKey, "base64");
  if (raw.length !== 32) return false;
  const key = createPublicKey({ key: Buffer.concat([SPKI, raw]), format: "der", type: "spki" });
  return verify(null, Buffer.from(text, "utf8"), key, Buffer.from(signature, "base64"));
}

/** What a verifier needs besides the file that it looks at. */
export const VERIFYING_TOOLS: VerifyingTools = {
  tree: recordTree,
  bytesOf: (text) => Buffer.from(text, "utf8"),
  fromHex: (hex) => Buffer.from(hex, "hex"),
  toHex: (hash) => Buffer.from(hash).toString("hex"),
  keyId: keyIdOf,
  isSignedBy,
};
