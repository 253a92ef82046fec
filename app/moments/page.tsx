import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { first, type SearchParams } from "@/app/reports/range";
import { readPastDay } from "@/lib/queries/as-of";
import { momentQuery, morningQuery } from "@/lib/schemas/as-of";
import { localDate } from "@/lib/units/time";
import { DaySlider } from "./day-slider.client";

export const metadata: Metadata = { title: "Earlier" };

/** A morning that has been, minute by minute, as the board said it then. */
export default async function MomentsPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/moments");
  const params = await searchParams;
  const asked = morningQuery.safeParse({ date: first(params.date) || undefined });
  const date = asked.success && asked.data.date !== undefined ? localDate(asked.data.date) : null;
  const day = await readPastDay(actor, date);
  const moment = momentQuery.safeParse({ at: first(params.at) });
  return <DaySlider key={day.date} day={day} at={moment.success ? moment.data.at : null} />;
}
