import { z } from "zod";
import { id, timestamp, words } from "@/lib/schemas/common";

/** 160 bits in letters and digits that cannot be mistaken for each other. */
export const DEVICE_CODE = /^[a-hj-km-np-z2-9]{32}$/;
export const deviceCode = z
  .string()
  .regex(DEVICE_CODE, "must be 32 small letters and digits, without i, l, o, 0 and 1");

/** Whoever registers draws the code, so that it is never in an answer that is kept; only its hash is stored. */
export const registerDeviceRequest = z.strictObject({ name: words(80), code: deviceCode });
export const registerDeviceReply = z.strictObject({ deviceId: id });
export const revokeDeviceRequest = z.strictObject({ deviceId: id });
export const revokeDeviceReply = z.strictObject({ deviceId: id });

export const devicesView = z.strictObject({
  devices: z.array(
    z.strictObject({
      id,
      name: z.string(),
      revoked: z.boolean(),
      registeredBy: z.string(),
      registeredAt: timestamp,
      revokedBy: z.string().nullable(),
      revokedAt: timestamp.nullable(),
      lastSeenAt: timestamp.nullable(),
    }),
  ),
  at: timestamp,
});
export type DevicesView = z.infer<typeof devicesView>;
