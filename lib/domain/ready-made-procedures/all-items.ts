import type { ItemId } from "@/lib/domain/items";
import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { BREATHING_ITEMS } from "@/lib/domain/ready-made-procedures/breathing-items";
import { CASE_ITEMS } from "@/lib/domain/ready-made-procedures/case-items";
import { CLOSE_OUT_ITEMS } from "@/lib/domain/ready-made-procedures/close-out-items";
import { GAS_ITEMS } from "@/lib/domain/ready-made-procedures/gas-items";
import { MONITOR_ITEMS } from "@/lib/domain/ready-made-procedures/monitor-items";
import { ROOM_ITEMS } from "@/lib/domain/ready-made-procedures/room-items";
import { SUPPLY_ITEMS } from "@/lib/domain/ready-made-procedures/supply-items";

/** The words for every item: procedures pick from them, and a recheck falls back on them for what the site's procedure does not ask. */
export const ALL_ITEMS: readonly ProcedureItem[] = [
  ...ROOM_ITEMS,
  ...SUPPLY_ITEMS,
  ...MONITOR_ITEMS,
  ...GAS_ITEMS,
  ...BREATHING_ITEMS,
  ...CASE_ITEMS,
  ...CLOSE_OUT_ITEMS,
];

/** The items in the order asked; an item with several methods comes with all of them, and the place decides. */
export function picked(items: readonly ItemId[]): ProcedureItem[] {
  return items.flatMap((item) => ALL_ITEMS.filter((one) => one.item === item));
}
