import type { FacilityEvidence, RuleSetting } from "@/lib/domain/evidence";
import type { Role } from "@/lib/domain/vocabulary";
import type { Scope, Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

/** What a command is about; checks and tasks name the workstation and room behind them. */
export interface Locks {
  readonly rooms?: readonly string[];
  readonly workstations?: readonly string[];
  readonly checks?: readonly string[];
  readonly tasks?: readonly string[];
  /** A change of the whole department, such as an import. */
  readonly everything?: boolean;
  /** A change of the settings or of the facility's own row: nobody else works in the facility until it is done. */
  readonly settings?: boolean;
}

/** What every command knows once its rows are locked. */
export interface Begun {
  readonly scope: Scope;
  readonly facility: FacilityEvidence & { readonly name: string };
  readonly settingsVersion: number;
  readonly settings: Readonly<Record<string, RuleSetting>>;
  readonly roles: readonly Role[];
  readonly personActive: boolean;
  readonly rooms: readonly string[];
  readonly workstations: readonly string[];
  readonly receipt: { readonly digest: string; readonly reply: unknown } | null;
}

interface FacilityRow {
  id: string;
  name: string;
  time_zone: string;
  scheme: FacilityEvidence["scheme"];
  pressure_unit: FacilityEvidence["pressureUnit"];
}

interface BegunRow {
  facility: FacilityRow | null;
  settings_version: number;
  settings: Record<string, RuleSetting>;
  roles: Role[];
  person_active: boolean | null;
  rooms: string[];
  workstations: string[];
  receipt_digest: string | null;
  receipt_reply: unknown;
}

export const facilityOf = (row: FacilityRow): Begun["facility"] => ({
  id: row.id,
  name: row.name,
  timeZone: row.time_zone,
  scheme: row.scheme,
  pressureUnit: row.pressure_unit,
});

/** Settings, locks, roles and receipt in one round trip and in the one lock order (see the SQL function). */
export async function beginCommand(
  tx: Tx,
  scope: Scope,
  personId: string,
  locks: Locks,
  key: string | null,
): Promise<Begun> {
  if (locks.settings)
    await tx.$queryRaw`SELECT lock_settings(${scope.organisationId}::uuid, ${scope.facilityId}::uuid)::text AS locked`;
  const [row] = await tx.$queryRaw<BegunRow[]>`
    SELECT * FROM begin_command(
      ${scope.organisationId}::uuid, ${scope.facilityId}::uuid, ${personId}::uuid,
      ${[...(locks.rooms ?? [])]}::uuid[], ${[...(locks.workstations ?? [])]}::uuid[],
      ${[...(locks.checks ?? [])]}::uuid[], ${[...(locks.tasks ?? [])]}::text[], ${key}::text, ${locks.everything ?? false}::boolean)`;
  if (!row?.facility) throw new Error(`facility ${scope.facilityId} is not of organisation ${scope.organisationId}`);
  return {
    scope,
    facility: facilityOf(row.facility),
    settingsVersion: row.settings_version,
    settings: row.settings,
    roles: row.roles,
    personActive: row.person_active ?? false,
    rooms: row.rooms,
    workstations: row.workstations,
    receipt: row.receipt_digest === null ? null : { digest: row.receipt_digest, reply: row.receipt_reply },
  };
}

export interface Finished {
  readonly key: string | null;
  readonly digest: string;
  readonly reply: unknown;
  readonly at: Instant;
  /** The canonical JSON text of the history entry: exactly what is hashed. */
  readonly entry: string;
  readonly notice: NoticeBody;
}

/** What other instances and open boards are told when the transaction commits. */
export interface NoticeBody {
  readonly command: string;
  readonly holders: readonly { readonly kind: "room" | "workstation"; readonly id: string }[];
  readonly all?: boolean;
  readonly session?: string;
}

/** Receipt, history entry (its lock comes last), notice; returns the entry's sequence. */
export async function finishCommand(tx: Tx, scope: Scope, finished: Finished): Promise<number> {
  const [row] = await tx.$queryRaw<{ sequence: bigint }[]>`
    SELECT finish_command(
      ${scope.facilityId}::uuid, ${finished.key}::text, ${finished.digest}, ${JSON.stringify(finished.reply ?? null)}::jsonb,
      ${timestampOf(finished.at)}::timestamptz, ${finished.entry}, ${JSON.stringify(finished.notice)}::jsonb) AS sequence`;
  return Number(row?.sequence ?? -1);
}
