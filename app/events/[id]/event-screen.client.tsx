"use client";

import { useQuery } from "@tanstack/react-query";
import { useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { whenText } from "@/app/_parts/format";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { Said } from "@/app/_parts/said.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/events/events.module.css";
import type { EventView } from "@/lib/schemas/events";
import { EmergencyCard } from "./emergency-card";
import { EndEvent } from "./end-event.client";
import { EventRoomLine } from "./event-room";
import { ReturnForm } from "./return-form.client";

/** One event: the card first, then the rooms, then what brings them back. */
export function EventScreen({ initial }: { initial: EventView }) {
  const session = useSession();
  const { data: event, refetch } = useQuery({
    queryKey: ["department-event", initial.line.id],
    queryFn: () => viewOrThrow<EventView>(`/api/v1/department-events/${initial.line.id}`),
    initialData: initial,
  });
  const changed = () => void refetch();
  useOnChange(
    event.rooms.map(({ roomId }) => roomId),
    changed,
  );
  const mayReturn = useMayDo("return-to-service");
  const mayEnd = useMayDo("end-event");
  const zone = session?.facility.timeZone ?? "UTC";
  const { line } = event;
  const open = line.endedAt === null;
  const left = event.rooms.filter(({ left: looks }) => looks.length > 0);
  return (
    <Page>
      <RoomsTabs />
      <PageHeading
        title={line.title}
        sub={`since ${whenText(line.at, event.at, zone)}, told by ${line.by} · ${line.effect}`}
      />
      {line.drill && open ? (
        <Notice title="A drill">Walk the card as if it were real. Nothing is out of use.</Notice>
      ) : null}
      {open ? null : <Ended event={event} zone={zone} />}
      {event.note ? <p>{event.note}</p> : null}
      <div className={styles.columns}>
        <Panel title={event.card.title} aside={open ? "in this order" : "the card of then"}>
          <EmergencyCard card={event.card} />
        </Panel>
        <Panel title={<Said>Rooms</Said>} aside={event.claim ? `${event.claim.name} is on it` : undefined}>
          <ul className={styles.rooms}>
            {event.rooms.map((room) => (
              <EventRoomLine key={room.roomId} room={room} zone={zone} drill={line.drill} open={open} />
            ))}
          </ul>
        </Panel>
      </div>
      {open && left.length > 0 && mayReturn ? (
        <div className={styles.noPrint}>
          <Panel title="Return to service" aside="this signs it">
            <ReturnForm event={event} left={left} unit={session?.facility.pressureUnit ?? "psi"} onReturned={changed} />
          </Panel>
        </div>
      ) : null}
      {open && mayEnd && left.length === 0 ? (
        <div className={styles.noPrint}>
          <Panel title={line.drill ? "End the drill" : "End the event"}>
            <EndEvent eventId={line.id} onEnded={changed} />
          </Panel>
        </div>
      ) : null}
    </Page>
  );
}

function Ended({ event, zone }: { event: EventView; zone: string }) {
  const { line, endedBy, endReason } = event;
  return (
    <Notice tone="done" title={`Ended ${line.endedAt ? whenText(line.endedAt, event.at, zone) : ""}`}>
      <p>
        {endedBy ? `${endedBy}: ` : ""}
        {endReason}
      </p>
    </Notice>
  );
}
