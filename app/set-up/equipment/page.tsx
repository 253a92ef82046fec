import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readPlaces } from "@/lib/queries/set-up";
import { EquipmentManager } from "./equipment-manager.client";

export const metadata: Metadata = { title: "Equipment" };

/** Models, and the workstations of each. */
export default async function EquipmentPage() {
  return <EquipmentManager initial={await readPlaces(await requirePerson("/set-up/equipment"))} />;
}
