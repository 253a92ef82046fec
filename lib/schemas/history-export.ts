import { z } from "zod";
import { EXPORT_FORMAT } from "@/lib/domain/history/model";
import { date, id, timestamp } from "@/lib/schemas/common";

const hash = z.string().regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in hexadecimal");
const moment = timestamp;

export const signedHead = z.strictObject({
  facility: id,
  at: moment,
  size: z.int().nonnegative(),
  root: hash,
  key: z.string().max(64),
  signature: z.base64("must be base64"),
});
export const headKey = z.strictObject({
  id: z.string().max(64),
  publicKey: z.base64("must be base64"),
  madeAt: moment,
  retiredAt: moment.nullable(),
});

export const historyExport = z.strictObject({
  format: z.literal(EXPORT_FORMAT),
  facility: z.strictObject({ id, name: z.string() }),
  madeAt: moment,
  whole: z.boolean(),
  keys: z.array(headKey),
  heads: z.array(signedHead),
  consistency: z.array(z.array(hash)),
  entries: z.array(
    z.strictObject({
      sequence: z.int().nonnegative(),
      at: moment.optional(),
      body: z.string(),
      hash,
      proof: z.array(hash).optional(),
    }),
  ),
});

/** What an export holds: everything, or what a room, a person or some days have in it. */
export const exportQuery = z
  .strictObject({ room: id.optional(), person: id.optional(), from: date.optional(), to: date.optional() })
  .refine(({ from, to }) => !from || !to || from <= to, { path: ["to"], error: "must not be before from" });
export type ExportQuery = z.infer<typeof exportQuery>;

export const headsView = z.strictObject({ keys: z.array(headKey), heads: z.array(signedHead) });
export type HeadsView = z.infer<typeof headsView>;
export const renewHeadKeyRequest = z.strictObject({});
export const renewHeadKeyReply = z.strictObject({ keyId: z.string() });
