import type { Scope, Tx } from "@/lib/storage/client";

/** A table that an import fills: its key after the scope, and every column with the field it comes from. */
interface Table {
  readonly name: string;
  readonly scope: "facility_id" | "organisation_id";
  readonly key: readonly string[];
  readonly columns: Readonly<Record<string, readonly [field: string, type: string]>>;
}

const named = { id: ["id", "uuid"], name: ["name", "text"] } as const;
const kept = { store_id: ["storeId", "uuid"] } as const;
const byId = { scope: "facility_id", key: ["id"] } as const;

export const DEPARTMENT_TABLES = {
  suites: { ...byId, name: "suite", columns: { ...named, walking_order: ["walkingOrder", "integer"] } },
  zones: { ...byId, name: "pipeline_zone", columns: named },
  stores: {
    ...byId,
    name: "store",
    columns: { ...named, suite_id: ["suiteId", "uuid"], walking_order: ["walkingOrder", "integer"] },
  },
  rooms: {
    ...byId,
    name: "room",
    columns: {
      ...named,
      suite_id: ["suiteId", "uuid"],
      zone_id: ["zoneId", "uuid"],
      piped: ["piped", "text[]"],
      vacuum: ["vacuum", "boolean"],
      waste_gas: ["wasteGas", "text"],
      walking_order: ["walkingOrder", "integer"],
    },
  },
  models: {
    scope: "organisation_id",
    key: ["id"],
    name: "workstation_model",
    columns: { ...named, maker: ["maker", "text"], document: ["document", "jsonb"] },
  },
  workstations: {
    ...byId,
    name: "workstation",
    columns: { id: ["id", "uuid"], tag: ["tag", "text"], serial: ["serial", "text"], model_id: ["modelId", "uuid"] },
  },
  cylinders: {
    ...byId,
    name: "cylinder",
    columns: {
      id: ["id", "uuid"],
      serial: ["serial", "text"],
      gas: ["gas", "text"],
      scheme: ["scheme", "text"],
      size: ["size", "text"],
      water_capacity_l: ["waterCapacityL", "double precision"],
      rated_contents_l: ["ratedContentsL", "double precision"],
      rated_pressure: ["ratedPressure", "double precision"],
      rated_pressure_unit: ["ratedPressureUnit", "text"],
      expiry: ["expiry", "date"],
      retest_due: ["retestDue", "date"],
      contents: ["contents", "text"],
      ...kept,
    },
  },
  vaporizers: {
    ...byId,
    name: "vaporizer",
    columns: {
      id: ["id", "uuid"],
      tag: ["tag", "text"],
      agent: ["agent", "text"],
      filler: ["filler", "text"],
      calibration_due: ["calibrationDue", "date"],
      calibration_window_to: ["windowTo", "date"],
      ...kept,
    },
  },
  absorbent: {
    ...byId,
    name: "absorbent",
    columns: {
      id: ["id", "uuid"],
      tag: ["tag", "text"],
      product: ["product", "text"],
      indicator: ["indicator", "boolean"],
      reverts: ["reverts", "boolean"],
      strong_base: ["strongBase", "boolean"],
      litres_per_100g: ["litresPer100g", "double precision"],
      mass_g: ["massG", "double precision"],
      ...kept,
    },
  },
  sensors: {
    ...byId,
    name: "oxygen_sensor",
    columns: { id: ["id", "uuid"], tag: ["tag", "text"], kind: ["kind", "text"], ...kept },
  },
  service: {
    scope: "facility_id",
    key: ["workstation_id", "plan"],
    name: "service_plan",
    columns: {
      workstation_id: ["workstationId", "uuid"],
      plan: ["plan", "text"],
      due: ["due", "date"],
      window_from: ["windowFrom", "date"],
      window_to: ["windowTo", "date"],
    },
  },
  list: {
    scope: "facility_id",
    key: ["room_id", "date"],
    name: "day_list",
    columns: {
      room_id: ["roomId", "uuid"],
      date: ["date", "date"],
      first_case: ["firstCase", "text"],
      ends_at: ["ends", "text"],
      needs: ["needs", "text[]"],
      set_up_minutes: ["setUpMinutes", "integer"],
    },
  },
} as const satisfies Record<string, Table>;

/** Adds or changes any number of rows in one statement. The names in it are the constants above; only the rows are data. */
export async function upsert(tx: Tx, scope: Scope, table: Table, rows: readonly object[]): Promise<void> {
  if (rows.length === 0) return;
  const columns = Object.entries(table.columns);
  const names = columns.map(([column]) => column);
  // A model's key is its id alone; everything else leads with its facility.
  const key = table.scope === "facility_id" ? [table.scope, ...table.key] : table.key;
  const set = names.filter((column) => !table.key.includes(column)).map((column) => `${column} = excluded.${column}`);
  const sql = `
    INSERT INTO ${table.name} (${[table.scope, ...names].join(", ")})
    SELECT $1::uuid, ${columns.map(([, [field]]) => `i."${field}"`).join(", ")}
    FROM jsonb_to_recordset($2::jsonb) AS i(${columns.map(([, [field, type]]) => `"${field}" ${type}`).join(", ")})
    ON CONFLICT (${key.join(", ")}) DO UPDATE SET ${set.join(", ")}`;
  const owner = table.scope === "facility_id" ? scope.facilityId : scope.organisationId;
  await tx.$executeRawUnsafe(sql, owner, JSON.stringify(rows));
}
