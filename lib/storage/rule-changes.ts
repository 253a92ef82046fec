import type { RuleSetting } from "@/lib/domain/evidence";
import type { RuleChange } from "@/lib/domain/rule-change/model";
import type { Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

/** A change with everybody who had a hand in it. */
export interface StoredChange extends RuleChange {
  readonly proposedRole: Role;
  readonly proposedAt: Timestamp;
  readonly decidedByName: string | null;
  readonly decidedRole: Role | null;
  readonly decidedAt: Timestamp | null;
  readonly decisionReason: string | null;
  readonly settingsVersion: number | null;
}

/** Changes of rules, the newest first; one of them, or all. */
export async function ruleChanges(tx: Tx, facilityId: string, id: string | null = null): Promise<StoredChange[]> {
  const [row] = await tx.$queryRaw<{ changes: StoredChange[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS changes FROM (
      SELECT c.id, c.rule, c.setting, c.was, c.reason, c.proposed_by AS "proposedBy", p.name AS "proposedByName", c.proposed_role AS "proposedRole",
        to_char(c.proposed_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "proposedAt", c.decision,
        d.name AS "decidedByName", c.decided_role AS "decidedRole",
        to_char(c.decided_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "decidedAt",
        c.decision_reason AS "decisionReason", c.settings_version AS "settingsVersion"
      FROM fact.rule_change c JOIN person p ON p.id = c.proposed_by LEFT JOIN person d ON d.id = c.decided_by
      WHERE c.facility_id = ${facilityId}::uuid AND (${id}::uuid IS NULL OR c.id = ${id}::uuid)
      ORDER BY c.proposed_at DESC, c.id) x`;
  return row?.changes ?? [];
}

/** The open proposal about one rule. */
export async function openChangeOf(
  tx: Tx,
  facilityId: string,
  rule: string,
): Promise<{ proposedByName: string } | null> {
  const [row] = await tx.$queryRaw<{ proposedByName: string }[]>`
    SELECT p.name AS "proposedByName" FROM fact.rule_change c JOIN person p ON p.id = c.proposed_by
    WHERE c.facility_id = ${facilityId}::uuid AND c.rule = ${rule} AND c.decision IS NULL`;
  return row ?? null;
}

/** False when somebody proposed another change of this rule in the meantime. */
export async function insertRuleChange(
  tx: Tx,
  facilityId: string,
  change: Pick<RuleChange, "id" | "rule" | "setting" | "was" | "reason" | "proposedBy"> & {
    readonly role: Role;
    readonly at: Instant;
  },
): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.rule_change (facility_id, id, rule, setting, was, reason, proposed_by, proposed_role, proposed_at)
    VALUES (${facilityId}::uuid, ${change.id}::uuid, ${change.rule}, ${jsonOrNull(change.setting)}::jsonb, ${jsonOrNull(change.was)}::jsonb,
      ${change.reason}, ${change.proposedBy}::uuid, ${change.role}, ${timestampOf(change.at)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

const jsonOrNull = (value: object | null): string | null => (value === null ? null : JSON.stringify(value));

/** False when it was decided in the meantime. */
export async function decideRuleChange(
  tx: Tx,
  facilityId: string,
  id: string,
  decided: {
    readonly decision: "approved" | "declined" | "withdrawn";
    readonly by: string;
    readonly role: Role;
    readonly at: Instant;
    readonly reason: string | null;
    readonly settingsVersion: number | null;
  },
): Promise<boolean> {
  const changed = await tx.$executeRaw`
    UPDATE fact.rule_change SET decision = ${decided.decision}, decided_by = ${decided.by}::uuid, decided_role = ${decided.role},
      decided_at = ${timestampOf(decided.at)}::timestamptz, decision_reason = ${decided.reason}, settings_version = ${decided.settingsVersion}::int
    WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND decision IS NULL`;
  return changed === 1;
}

/** Puts the next version of the settings in force, and keeps the one before it if nothing has kept it yet. */
export async function putSettings(
  tx: Tx,
  facilityId: string,
  settings: {
    readonly version: number;
    readonly document: Readonly<Record<string, RuleSetting>>;
    readonly by: string;
    readonly at: Instant;
    readonly ruleChangeId: string | null;
  },
): Promise<boolean> {
  const { version, document, by, at, ruleChangeId } = settings;
  await tx.$executeRaw`
    INSERT INTO fact.settings_version (facility_id, version, document, in_force_from)
    SELECT facility_id, version, document, changed_at FROM facility_settings WHERE facility_id = ${facilityId}::uuid
    ON CONFLICT DO NOTHING`;
  const changed = await tx.$executeRaw`
    UPDATE facility_settings SET version = ${version}::int, document = ${JSON.stringify(document)}::jsonb, changed_at = ${timestampOf(at)}::timestamptz, changed_by = ${by}::uuid
    WHERE facility_id = ${facilityId}::uuid AND version = ${version - 1}::int`;
  await tx.$executeRaw`
    INSERT INTO fact.settings_version (facility_id, version, document, in_force_from, rule_change_id)
    VALUES (${facilityId}::uuid, ${version}::int, ${JSON.stringify(document)}::jsonb, ${timestampOf(at)}::timestamptz, ${ruleChangeId}::uuid)`;
  return changed === 1;
}
