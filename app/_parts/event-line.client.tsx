"use client";

import { useQuery } from "@tanstack/react-query";
import Link from "next/link";
import { useOnChange, WHOLE_BOARD_ONLY } from "@/app/_live/use-live.client";
import { Notice } from "@/app/_ui/notice";
import type { EventLine as Line, OpenEventsView } from "@/lib/schemas/events";
import { viewOrThrow } from "./api.client";
import styles from "./event-line.module.css";
import { clockText } from "./format";
import { useSession } from "./session.client";

/** One line for each open event, above the rooms: what happened, what it means, and where the card is. Nothing while nothing is open. */
export function EventLines() {
  const session = useSession();
  const { data, refetch } = useQuery({
    queryKey: ["open-events", session?.facility.id],
    queryFn: () => viewOrThrow<OpenEventsView>("/api/v1/open-events"),
    refetchOnWindowFocus: true,
  });
  useOnChange(WHOLE_BOARD_ONLY, () => void refetch());
  if (!data || data.events.length === 0 || !session) return null;
  return (
    <section className={styles.lines} aria-label="Open events">
      {data.events.map((event) => (
        <EventNotice key={event.id} event={event} zone={session.facility.timeZone} />
      ))}
    </section>
  );
}

function EventNotice({ event, zone }: { event: Line; zone: string }) {
  const grave = !event.drill && event.kind !== "recall";
  return (
    <Notice tone={event.drill ? "plain" : grave ? "wrong" : "heed"} title={event.title} announce="status">
      <p className={styles.line}>
        <span>
          since {clockText(event.at, zone)} · {event.effect}
        </span>
        <Link href={`/events/${event.id}`} prefetch={false} className={styles.open}>
          {event.drill ? "Open the drill" : "Card and rooms"}
        </Link>
      </p>
    </Notice>
  );
}
