import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

/** Only the owner's role may: an organisation is founded once, from the command line or on an empty database. */
export async function foundOrganisation(tx: Tx, organisationId: string, name: string): Promise<void> {
  await tx.$executeRaw`INSERT INTO organisation (id, name) VALUES (${organisationId}::uuid, ${name})`;
}

/** A facility with its settings and its empty history; the transaction's scope moves to it. */
export async function foundFacility(
  tx: Tx,
  facilityId: string,
  facility: {
    readonly name: string;
    readonly timeZone: string;
    readonly scheme: string;
    readonly pressureUnit: string;
  },
  at: Instant,
): Promise<void> {
  await tx.$queryRaw`
    SELECT found_facility(${facilityId}::uuid, ${facility.name}, ${facility.timeZone}, ${facility.scheme}, ${facility.pressureUnit}, ${timestampOf(at)}::timestamptz)::text`;
}
