import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readEvents } from "@/lib/queries/events";
import { EventsScreen } from "./events-screen.client";

export const metadata: Metadata = { title: "Events" };

/** What happened to many rooms at once, and the way to say so. */
export default async function EventsPage() {
  return <EventsScreen initial={await readEvents(await requirePerson("/events"))} />;
}
