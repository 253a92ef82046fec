"use client";

import { useQuery } from "@tanstack/react-query";
import Link from "next/link";
import { useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { EventLines } from "@/app/_parts/event-line.client";
import { whenText } from "@/app/_parts/format";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { Said } from "@/app/_parts/said.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import type { EventLine, EventsView } from "@/lib/schemas/events";
import styles from "./events.module.css";
import { RaiseForm } from "./raise-form.client";

export function EventsScreen({ initial }: { initial: EventsView }) {
  const session = useSession();
  const mayRaise = useMayDo("raise-event");
  const { data: view, refetch } = useQuery({
    queryKey: ["department-events", session?.facility.id],
    queryFn: () => viewOrThrow<EventsView>("/api/v1/department-events"),
    initialData: initial,
  });
  useOnChange([], () => void refetch());
  const zone = session?.facility.timeZone ?? "UTC";
  return (
    <Page>
      <RoomsTabs />
      <PageHeading title="Events" sub={<Said>One cause, many rooms: told once, worked on once.</Said>} />
      <EventLines />
      {view.open.length === 0 ? <p>Nothing is open.</p> : null}
      <div className={styles.columns}>
        {mayRaise ? (
          <Panel title="Something happened">
            <RaiseForm view={view} unit={session?.facility.pressureUnit ?? "psi"} />
          </Panel>
        ) : null}
        <Panel title="Ended">
          <Ended events={view.ended} now={view.at} zone={zone} />
        </Panel>
      </div>
    </Page>
  );
}

function Ended({ events, now, zone }: { events: readonly EventLine[]; now: string; zone: string }) {
  if (events.length === 0) return <p>None so far.</p>;
  return (
    <ul className={styles.ended}>
      {events.map((event) => (
        <li key={event.id}>
          <Link href={`/events/${event.id}`} prefetch={false} className={styles.name}>
            {event.title}
          </Link>
          <span className={styles.soft}>
            {whenText(event.at, now, zone)} to {event.endedAt ? whenText(event.endedAt, now, zone) : ""} ·{" "}
            {event.effect}
          </span>
        </li>
      ))}
    </ul>
  );
}
