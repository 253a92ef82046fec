import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readEvent } from "@/lib/queries/events";
import { EventScreen } from "./event-screen.client";

interface EventPageProps {
  params: Promise<{ id: string }>;
}

export default async function EventPage({ params }: EventPageProps) {
  const { id } = await params;
  const event = await readEvent(await requirePerson(`/events/${encodeURIComponent(id)}`), id);
  if (!event) notFound();
  return (
    <>
      <title>{`${event.line.title} · Yokeboard`}</title>
      <EventScreen initial={event} />
    </>
  );
}
