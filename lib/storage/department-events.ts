import type { DepartmentEvent, DepartmentEventKind, RoomEffect } from "@/lib/domain/event/model";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Gas, Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import type { Quantity } from "@/lib/units/quantity";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

/** An event with the names of who raised and who ended it. */
export interface StoredEvent extends DepartmentEvent {
  readonly byName: string;
  readonly endedByName: string | null;
  readonly endReason: string | null;
}

interface EventJson {
  id: string;
  kind: DepartmentEventKind;
  zone: { id: string; name: string } | null;
  model: { id: string; name: string } | null;
  gas: Gas | null;
  reading: Quantity | null;
  drill: boolean;
  note: string | null;
  rooms: string[];
  at: string;
  by: string;
  role: Role;
  ended_at: string | null;
  by_name: string;
  ended_by_name: string | null;
  end_reason: string | null;
}

const storedEventOf = ({ ended_at, by_name, ended_by_name, end_reason, at, ...rest }: EventJson): StoredEvent => ({
  ...rest,
  at: instantOf(at),
  endedAt: ended_at === null ? null : instantOf(ended_at),
  byName: by_name,
  endedByName: ended_by_name,
  endReason: end_reason,
});

/** Open events, the newest first; or one by its id; or the last ended ones. */
export async function departmentEvents(
  tx: Tx,
  facilityId: string,
  which: { readonly id?: string; readonly ended?: boolean; readonly most?: number },
): Promise<StoredEvent[]> {
  const [row] = await tx.$queryRaw<{ events: EventJson[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS events FROM (
      SELECT e.id, e.kind, e.gas, e.reading, e.drill, e.note, e.rooms, e.at, e.by, e.role, e.ended_at, e.end_reason,
        CASE WHEN z.id IS NULL THEN NULL ELSE json_build_object('id', z.id, 'name', z.name) END AS zone,
        CASE WHEN m.id IS NULL THEN NULL ELSE json_build_object('id', m.id, 'name', m.name) END AS model,
        coalesce(p.name, 'unknown') AS by_name, q.name AS ended_by_name
      FROM fact.department_event e
      LEFT JOIN pipeline_zone z ON z.facility_id = e.facility_id AND z.id = e.zone_id
      LEFT JOIN workstation_model m ON m.id = e.model_id
      LEFT JOIN person p ON p.id = e.by LEFT JOIN person q ON q.id = e.ended_by
      WHERE e.facility_id = ${facilityId}::uuid
        AND CASE WHEN ${which.id ?? null}::uuid IS NOT NULL THEN e.id = ${which.id ?? null}::uuid
                 ELSE (e.ended_at IS NOT NULL) = ${which.ended ?? false}::boolean END
      ORDER BY coalesce(e.ended_at, e.at) DESC, e.id LIMIT ${which.most ?? 100}::int) x`;
  return (row?.events ?? []).map(storedEventOf);
}

export async function insertDepartmentEvent(tx: Tx, facilityId: string, event: DepartmentEvent): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.department_event (facility_id, id, kind, zone_id, model_id, gas, reading, drill, note, rooms, at, by, role)
    VALUES (${facilityId}::uuid, ${event.id}::uuid, ${event.kind}, ${event.zone?.id ?? null}::uuid, ${event.model?.id ?? null}::uuid, ${event.gas},
      ${event.reading === null ? null : JSON.stringify(event.reading)}::jsonb, ${event.drill}, ${event.note}, ${[...event.rooms]}::uuid[],
      ${timestampOf(event.at)}::timestamptz, ${event.by}::uuid, ${event.role})`;
}

/** False when somebody ended it in the meantime. */
export async function endDepartmentEvents(
  tx: Tx,
  facilityId: string,
  ids: readonly string[],
  ended: { readonly by: string; readonly reason: string; readonly at: Instant },
): Promise<boolean> {
  const done = await tx.$executeRaw`
    UPDATE fact.department_event SET ended_at = greatest(${timestampOf(ended.at)}::timestamptz, at), ended_by = ${ended.by}::uuid, end_reason = ${ended.reason}
    WHERE facility_id = ${facilityId}::uuid AND id = ANY (${[...ids]}::uuid[]) AND ended_at IS NULL`;
  return done === ids.length;
}

/** What an event says of each room, as records of the equipment: all in one statement. */
export async function insertRoomEvents(
  tx: Tx,
  facilityId: string,
  zoneId: string,
  effects: readonly (RoomEffect["event"] & {
    readonly id: string;
    readonly roomId: string;
    readonly workstationId: string | null;
  })[],
  by: { readonly personId: string; readonly at: Instant },
): Promise<void> {
  const rows = effects.map(({ subject, ...rest }) => ({ ...rest, subjectKind: subject.kind, subjectId: subject.id }));
  await tx.$executeRaw`
    INSERT INTO fact.equipment_event (facility_id, id, kind, subject_kind, subject_id, workstation_id, room_id, zone_id, at, by)
    SELECT ${facilityId}::uuid, i.id, i.kind, i."subjectKind", i."subjectId", i."workstationId", i."roomId", ${zoneId}::uuid,
      ${timestampOf(by.at)}::timestamptz, ${by.personId}::uuid
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb)
      AS i(id uuid, kind text, "subjectKind" text, "subjectId" text, "workstationId" uuid, "roomId" uuid)`;
}

/** The one task of an event. Its holder is the event: judging a room leaves it alone. */
export async function putEventTasks(
  tx: Tx,
  facilityId: string,
  tasks: readonly { readonly eventId: string; readonly draft: TaskDraft }[],
  at: Instant,
): Promise<void> {
  if (tasks.length === 0) return;
  const rows = tasks.map(({ eventId, draft }) => ({ eventId, key: draft.key, document: draft }));
  await tx.$executeRaw`
    INSERT INTO derived.task (facility_id, key, holder_kind, holder_id, workstation_id, document, opened_at)
    SELECT ${facilityId}::uuid, i.key, 'event', i."eventId", NULL, i.document, ${timestampOf(at)}::timestamptz
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS i("eventId" uuid, key text, document jsonb)
    ON CONFLICT (facility_id, key) WHERE closed_at IS NULL DO UPDATE SET document = excluded.document`;
}

/** Closes the tasks of ended events, and the claims on them. */
export async function closeEventTasks(tx: Tx, facilityId: string, keys: readonly string[], at: Instant): Promise<void> {
  await tx.$executeRaw`
    WITH closed AS (
      UPDATE derived.task SET closed_at = greatest(${timestampOf(at)}::timestamptz, opened_at)
      WHERE facility_id = ${facilityId}::uuid AND key = ANY (${[...keys]}::text[]) AND closed_at IS NULL RETURNING key)
    UPDATE fact.claim c SET "to" = greatest(${timestampOf(at)}::timestamptz, c."from"), outcome = 'task-closed'
    FROM closed WHERE c.facility_id = ${facilityId}::uuid AND c.task_key = closed.key AND c."to" IS NULL`;
}

export interface EventPlaces {
  readonly zones: readonly {
    readonly id: string;
    readonly name: string;
    readonly rooms: number;
    readonly piped: readonly Gas[];
  }[];
  readonly models: readonly { readonly id: string; readonly name: string; readonly workstations: number }[];
}

/** Where an event may happen: the zones with their rooms, and the models that stand here. */
export async function eventPlaces(tx: Tx, facilityId: string): Promise<EventPlaces> {
  const [row] = await tx.$queryRaw<EventPlaces[]>`
    SELECT
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT z.id, z.name, count(r.id)::int AS rooms,
          ARRAY(SELECT DISTINCT unnest(o.piped) FROM room o WHERE o.facility_id = z.facility_id AND o.zone_id = z.id AND o.retired_at IS NULL ORDER BY 1) AS piped
        FROM pipeline_zone z LEFT JOIN room r ON r.facility_id = z.facility_id AND r.zone_id = z.id AND r.retired_at IS NULL
        WHERE z.facility_id = ${facilityId}::uuid GROUP BY z.facility_id, z.id, z.name ORDER BY z.name) x) AS zones,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT m.id, m.name, count(*)::int AS workstations FROM workstation w JOIN workstation_model m ON m.id = w.model_id
        WHERE w.facility_id = ${facilityId}::uuid AND w.retired_at IS NULL GROUP BY m.id, m.name ORDER BY m.name) x) AS models`;
  return row ?? { zones: [], models: [] };
}

/** The rooms behind a zone valve, or those in which a model stands. */
export async function roomsTouched(
  tx: Tx,
  facilityId: string,
  { zoneId, modelId }: { readonly zoneId?: string | undefined; readonly modelId?: string | undefined },
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT r.id FROM room r JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id
    LEFT JOIN fact.placement p ON p.facility_id = r.facility_id AND p.room_id = r.id AND p."to" IS NULL
    LEFT JOIN workstation w ON w.facility_id = p.facility_id AND w.id = p.workstation_id
    WHERE r.facility_id = ${facilityId}::uuid AND r.retired_at IS NULL
      AND (r.zone_id = ${zoneId ?? null}::uuid OR w.model_id = ${modelId ?? null}::uuid)
    ORDER BY s.walking_order, r.walking_order, r.name`;
  return rows.map(({ id }) => id);
}
