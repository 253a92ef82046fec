import pg from "pg";
import type { Scope } from "@/lib/storage/client";

/** Every facility of a database, by its owner: the application itself sees one at a time. */
export async function everyFacility(ownerUrl: string): Promise<Scope[]> {
  const owner = new pg.Client({ connectionString: ownerUrl });
  await owner.connect();
  try {
    const { rows } = await owner.query<{ id: string; organisation_id: string }>(
      "SELECT id, organisation_id FROM facility ORDER BY name",
    );
    return rows.map(({ id, organisation_id }) => ({ facilityId: id, organisationId: organisation_id }));
  } finally {
    await owner.end();
  }
}
