import type { SiteKnown } from "@/lib/domain/site/decide";
import type { SiteAsked, SiteWords } from "@/lib/domain/site/model";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Scope, Tx } from "@/lib/storage/client";

interface SiteRow extends SiteKnown {
  readonly words: Partial<SiteWords>;
}

/** The facility's own row, and what keeps parts of it from being changed. */
export async function loadSite(tx: Tx, { facilityId, organisationId }: Scope): Promise<SiteRow> {
  const [row] = await tx.$queryRaw<{ site: SiteRow }[]>`
    SELECT json_build_object(
      'now', json_build_object('name', f.name, 'timeZone', f.time_zone, 'scheme', f.scheme, 'pressureUnit', f.pressure_unit),
      'words', f.words,
      'otherNames', ARRAY(SELECT o.name FROM facility o WHERE o.organisation_id = ${organisationId}::uuid AND o.id <> f.id),
      'checks', (SELECT count(*)::int FROM fact.check_run c WHERE c.facility_id = f.id),
      'cylinders', (SELECT count(*)::int FROM cylinder c WHERE c.facility_id = f.id)) AS site
    FROM facility f WHERE f.id = ${facilityId}::uuid`;
  if (!row) throw new Error(`facility ${facilityId} is not there`);
  return row.site;
}

export async function putSite(tx: Tx, facilityId: string, site: SiteAsked): Promise<void> {
  await tx.$executeRaw`
    UPDATE facility SET name = ${site.name}, time_zone = ${site.timeZone}, scheme = ${site.scheme}, pressure_unit = ${site.pressureUnit}, words = ${JSON.stringify(site.words)}::jsonb
    WHERE id = ${facilityId}::uuid`;
}

/** The words the site chose; empty for those it left to its scheme. */
export async function chosenWords(tx: Tx, facilityId: string): Promise<Partial<SiteWords>> {
  const [row] = await tx.$queryRaw<
    { words: Partial<SiteWords> }[]
  >`SELECT words FROM facility WHERE id = ${facilityId}::uuid`;
  return row?.words ?? {};
}

/** The newest version of one kind of procedure. */
export async function procedureVersion(tx: Tx, facilityId: string, kind: CheckKind): Promise<number> {
  const [row] = await tx.$queryRaw<{ version: number | null }[]>`
    SELECT max(version) AS version FROM procedure WHERE facility_id = ${facilityId}::uuid AND kind = ${kind}`;
  return row?.version ?? 0;
}
