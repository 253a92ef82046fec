import { loadDepartment } from "@/lib/storage/department";
import type { Instant } from "@/lib/units/time";
import { exampleFiles } from "./department";
import type { Story } from "./working-day";

/** The supplier comes when it is worth the way. */
const WORTH_THE_WAY = 8;

/** The supplier brings back, filled, the cylinders that stand empty in the store; they come in by the import, as new ones do. */
export async function deliver({ department, folder, manager }: Story, at: Instant): Promise<void> {
  const { records } = await department.read((tx, scope) => loadDepartment(tx, scope, { dates: [], userIds: [] }));
  const empty = records.cylinders.filter(({ contents, storeId }) => contents === "empty" && storeId !== null);
  if (empty.length < WORTH_THE_WAY) return;
  const stores = new Map(records.stores.map(({ id, name }) => [id, name]));
  const [header = "", ...rows] = (exampleFiles(folder).cylinders ?? "").trim().split("\n");
  const filled = empty.flatMap(({ serial, storeId }) => {
    const row = rows.find((one) => one.startsWith(`${serial},`));
    // Whatever it hung on when the department was described, it is in the store now: workstation, yoke, store, contents.
    return row ? [[...row.split(",").slice(0, -4), "", "", stores.get(storeId ?? ""), "full"].join(",")] : [];
  });
  if (filled.length > 0) await department.import(manager, at, { cylinders: `${[header, ...filled].join("\n")}\n` });
}
