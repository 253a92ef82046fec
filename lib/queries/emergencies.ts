import type { Actor } from "@/lib/auth/actor";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { EmergencyReport } from "@/lib/schemas/moves";
import { emergencyUses } from "@/lib/storage/emergencies";
import { localDate, timestampOf } from "@/lib/units/time";

/** Cases that began in rooms that might not start: what a morning's review looks at. */
export const readEmergencies = (
  actor: Actor,
  { from, to }: { readonly from: string; readonly to: string },
  reading: Reading = appReading(),
): Promise<EmergencyReport> =>
  inFacility(
    actor,
    async (tx, frame, now) => ({
      uses: (
        await emergencyUses(tx, frame.scope.facilityId, frame.facility.timeZone, localDate(from), localDate(to))
      ).map((use) => ({ ...use })),
      at: timestampOf(now),
    }),
    reading,
  );
