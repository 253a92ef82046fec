import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readPlaces } from "@/lib/queries/set-up";
import { RoomsManager } from "./rooms-manager.client";

export const metadata: Metadata = { title: "Rooms" };

/** Rooms, and the suites, pipeline zones and stores around them. */
export default async function RoomsPage() {
  return <RoomsManager initial={await readPlaces(await requirePerson("/set-up/rooms"))} />;
}
