import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readWeek } from "@/lib/queries/set-up";
import { WeekManager } from "./week-manager.client";

export const metadata: Metadata = { title: "Week" };

/** What each weekday usually asks of each room, and today's own lists. */
export default async function WeekPage() {
  return <WeekManager initial={await readWeek(await requirePerson("/set-up/week"))} />;
}
