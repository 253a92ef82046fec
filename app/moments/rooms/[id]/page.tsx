import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { clockText, whenText } from "@/app/_parts/format";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { LIMIT_WORDS } from "@/app/_parts/words";
import { DefinitionList } from "@/app/_ui/definition-list";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/moments/moments.module.css";
import { PastNotice } from "@/app/moments/past-notice";
import { first, type SearchParams } from "@/app/reports/range";
import { readPastRoom } from "@/lib/queries/as-of";
import { momentQuery, type PastRoom } from "@/lib/schemas/as-of";
import { dateIn, instantOf } from "@/lib/units/time";
import { LogLine } from "./log-line";

export const metadata: Metadata = { title: "A room, earlier" };

interface PastRoomPageProps {
  params: Promise<{ id: string }>;
  searchParams: Promise<SearchParams>;
}

/** One room as it was known at a moment, from its evidence of then, with what the log said beside it. */
export default async function PastRoomPage({ params, searchParams }: PastRoomPageProps) {
  const { id } = await params;
  const actor = await requirePerson("/moments");
  const asked = momentQuery.safeParse({ at: first((await searchParams).at) });
  if (!asked.success) notFound();
  const past = await readPastRoom(actor, id, asked.data.at);
  if (!past.ok) return past.refusal === "not-found" ? notFound() : <Refused message={past.message} />;
  const { room, asOf, at, facility } = past.value;
  const zone = facility.timeZone;
  const back = `/moments?date=${dateIn(zone, instantOf(asOf))}&at=${encodeURIComponent(asOf)}`;
  return (
    <Page>
      <RoomsTabs />
      <PageHeading
        title={`${room.name}, as it was`}
        sub={room.workstation ? `${room.workstation.tag}, ${room.workstation.model}` : "no workstation stood there"}
        actions={
          <>
            <LinkButton href={back}>All rooms then</LinkButton>
            <LinkButton href={`/rooms/${room.roomId}`} look="quiet">
              {room.name} now
            </LinkButton>
          </>
        }
      />
      <PastNotice at={instantOf(asOf)} zone={zone} />
      <Panel title={<ReadinessMark readiness={room.state} />} aside={occupancyText(room, zone)}>
        <Reasons room={room} />
        <DefinitionList entries={factsOf(room, at, zone)} />
      </Panel>
      <Panel title="What the log says">
        <LogLine logged={room.logged} at={at} zone={zone} />
      </Panel>
    </Page>
  );
}

function Refused({ message }: { message: string }) {
  return (
    <Page>
      <RoomsTabs />
      <Notice tone="wrong" title="Not a moment that can be looked back at">
        {message}
      </Notice>
    </Page>
  );
}

function Reasons({ room }: { room: PastRoom }) {
  if (room.reasons.length === 0) return <p>Nothing stood against it.</p>;
  return (
    <ul className={styles.reasons}>
      {room.reasons.map(({ rule, text }) => (
        <li key={`${rule} ${text}`}>{text}</li>
      ))}
    </ul>
  );
}

function occupancyText({ occupancy }: PastRoom, zone: string): string {
  if (occupancy.state === "idle") return "idle";
  return `${occupancy.state === "closed" ? "closed" : "in use"} since ${clockText(occupancy.since, zone)}`;
}

function factsOf(room: PastRoom, now: string, zone: string) {
  const { marks, reserve, limits } = room;
  const mark = (one: { name: string; at: string } | null) =>
    one ? `${one.name}, ${whenText(one.at, now, zone)}` : "none";
  return [
    { term: "Equipment checked", value: mark(marks.equipment) },
    { term: "Provider's check", value: mark(marks.provider) },
    { term: "Limits", value: limits.length === 0 ? "none" : limits.map((limit) => LIMIT_WORDS[limit]).join(", ") },
    { term: "First case", value: room.firstCase ? clockText(room.firstCase, zone) : "none on the list" },
    {
      term: "Reserve oxygen",
      value: reserve
        ? `${reserve.reading.value} ${reserve.reading.unit}, ${reserve.minutesByHand ?? "?"} min by hand`
        : "not read",
    },
    { term: "Fitted", value: room.fitted.map(({ what, where }) => `${what} (${where})`).join("; ") || "nothing" },
  ];
}
