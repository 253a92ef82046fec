import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readDevices } from "@/lib/queries/set-up";
import { WallsManager } from "./walls-manager.client";

export const metadata: Metadata = { title: "Walls" };

/** Screens on walls, which read the board without anybody's sign-in. */
export default async function WallsPage() {
  return <WallsManager initial={await readDevices(await requirePerson("/set-up/walls"))} />;
}
