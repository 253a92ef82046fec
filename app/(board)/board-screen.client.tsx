"use client";

import { useMemo } from "react";
import { useBoard } from "@/app/_live/use-board.client";
import { longDayText } from "@/app/_parts/format";
import { NotLive } from "@/app/_parts/not-live";
import { LinkButton } from "@/app/_ui/link-button";
import { Page } from "@/app/_ui/page";
import type { Board } from "@/lib/schemas/board";
import { dateIn, instant } from "@/lib/units/time";
import { Answer } from "./answer";
import styles from "./board.module.css";
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
  const sections = useMemo(() => boardSections(board.rooms, known), [board.rooms, known]);
  return (
    <Page>
      <div className={styles.top}>
        <h1 className={styles.place}>
          Rooms <span>{board.facility.name}</span>
        </h1>
        <p className={styles.when}>
          {longDayText(dateIn(zone, now))} · <LiveLine live={known} now={now} zone={zone} />
        </p>
      </div>
      {known ? (
        <Answer rooms={board.rooms} now={now} zone={zone} />
      ) : (
        <NotLive since={instant(live.since)} readAt={board.at} zone={zone} />
      )}
      {board.rooms.length === 0 ? <NoRooms /> : null}
      {sections.map((section) => (
        <RoomSection
          key={section.id}
          section={section}
          scale={scale}
          zone={zone}
          lastKnown={known ? null : board.at}
          unjudged={unjudged}
        />
      ))}
    </Page>
  );
}

function NoRooms() {
  return (
    <div className={styles.empty}>
      <p>This facility has no rooms yet. They come from the department’s files, all at once.</p>
      <LinkButton href="/set-up" look="primary">
        Import the department
      </LinkButton>
    </div>
  );
}
