"use client";

import { useSearchParams } from "next/navigation";
import { useMemo } from "react";
import { useBoard } from "@/app/_live/use-board.client";
import { EventLines } from "@/app/_parts/event-line.client";
import { longDayText } from "@/app/_parts/format";
import { NotLive } from "@/app/_parts/not-live";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { Said } from "@/app/_parts/said.client";
import { useSession } from "@/app/_parts/session.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Page } from "@/app/_ui/page";
import type { Board } from "@/lib/schemas/board";
import { dateIn, instant } from "@/lib/units/time";
import { Answer } from "./answer";
import styles from "./board.module.css";
import { rowsSayTemplate, templateText } from "./by-template";
import { filterOf, shownRooms } from "./filter";
import { FilterBar, FilterLine, OtherWays } from "./filter-bar.client";
import { LiveLine } from "./live-line";
import { RoomSection } from "./room-section";
import { boardSections } from "./sections";
import { firstCasesOf, stripScale } from "./strip-scale";

/** Which rooms can start, and if not, what is missing and who is on it. Kept current by the live stream, turned over by the server's clock. */
export function BoardScreen({ initial }: { initial: Board }) {
  const { board, live, now: clock, unjudged } = useBoard(initial);
  const zone = board.facility.timeZone;
  const now = instant(clock);
  const minute = Math.floor(now / 60_000);
  const scale = useMemo(
    () => stripScale(instant(minute * 60_000), zone, firstCasesOf(board.rooms)),
    [minute, zone, board.rooms],
  );
  const known = live.state === "live";
  const me = useSession()?.person.name ?? "";
  const params = useSearchParams();
  const filter = useMemo(() => filterOf(params), [params]);
  const rooms = useMemo(() => shownRooms(board.rooms, filter, me, known), [board.rooms, filter, me, known]);
  const byTemplate = templateText(board.rooms);
  const sections = useMemo(() => boardSections(rooms, known), [rooms, known]);
  return (
    <Page>
      <RoomsTabs />
      <div className={styles.top}>
        <h1 className={styles.place}>
          <Said>Rooms</Said> <span>{board.facility.name}</span>
        </h1>
        <p className={styles.when}>
          <OtherWays />
          {longDayText(dateIn(zone, now))} · <LiveLine live={known} now={now} zone={zone} />
        </p>
      </div>
      {known ? (
        <Answer rooms={board.rooms} now={now} zone={zone} />
      ) : (
        <NotLive since={instant(live.since)} readAt={board.at} zone={zone} />
      )}
      <EventLines />
      {board.rooms.length === 0 ? (
        <NoRooms />
      ) : (
        <>
          {byTemplate ? (
            <p className={styles.template}>
              <Said>{byTemplate}</Said>
            </p>
          ) : null}
          <FilterBar rooms={board.rooms} filter={filter} me={me} known={known} />
          <FilterLine filter={filter} shown={rooms.length} of={board.rooms.length} />
        </>
      )}
      {sections.map((section) => (
        <RoomSection
          key={section.id}
          section={section}
          scale={scale}
          zone={zone}
          lastKnown={known ? null : board.at}
          unjudged={unjudged}
          tellTemplate={rowsSayTemplate(board.rooms)}
        />
      ))}
    </Page>
  );
}

function NoRooms() {
  return (
    <div className={styles.empty}>
      <p>
        <Said>
          This facility has no rooms yet. They come from the department’s files, all at once, or are added under Set-up.
        </Said>
      </p>
      <LinkButton href="/set-up" look="primary">
        Import the department
      </LinkButton>
    </div>
  );
}
