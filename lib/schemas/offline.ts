import { z } from "zod";
import { id, timestamp } from "@/lib/schemas/common";

/** The shape in which a device keeps what it has not sent. The one before it is a request without `kept`; both are taken. */
export const KEPT_SHAPE = 2;

/** What a device says about answers that it kept: whose they are, its clock, and the check if it was begun without a connection. */
export const keptOnDevice = z.strictObject({
  shape: z.literal(KEPT_SHAPE, {
    error:
      "was made by another version of this app than the server knows. Nothing is lost: leave it on the device and send it again once both are of one version",
  }),
  /** Who gave the answers; somebody else may send them, as evidence without a mark. */
  personId: id,
  clock: z.strictObject({
    offsetSeconds: z.int("must be whole seconds, server time minus device time"),
    contactAt: timestamp,
  }),
  began: z
    .strictObject({
      workstationId: id,
      roomId: id.nullable(),
      /** The version of the procedure that was asked; the one in force now is taken where it is not known. */
      procedureId: id.nullable(),
      kind: z.enum(["daily", "first-user"]),
      at: timestamp,
    })
    .nullable(),
});
export type KeptOnDevice = z.infer<typeof keptOnDevice>;
