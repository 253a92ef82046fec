import type { LiveStatus } from "@/app/_live/live-store.client";
import { clockText, longDayText } from "@/app/_parts/format";
import { Mark } from "@/app/_parts/readiness-mark";
import { useSay } from "@/app/_parts/say.client";
import { classNames } from "@/app/_ui/class-names";
import { answerSentence } from "@/lib/domain/morning";
import { sayAround } from "@/lib/domain/site-words";
import type { WallBoard } from "@/lib/schemas/wall";
import { dateIn, type Instant, instant, timeIn, timestampOf } from "@/lib/units/time";
import styles from "./wall.module.css";
import { morningRoom } from "./wall-words";

interface WallHeadProps {
  wall: WallBoard;
  live: LiveStatus;
  now: Instant;
  ended: boolean;
}

/** The answer as a sentence, or that there is none, and the server's clock. */
export function WallHead({ wall, live, now, ended }: WallHeadProps) {
  const zone = wall.facility.timeZone;
  return (
    <header className={styles.head}>
      <div className={styles.said}>
        <h1 className={styles.place}>
          {wall.facility.name}
          {wall.demo ? <span> Demo: hospital and equipment are invented.</span> : null}
        </h1>
        {live.state === "live" ? (
          <Sentence wall={wall} now={now} />
        ) : (
          <NotKnown since={clockText(timestampOf(instant(live.since)), zone)} ended={ended} />
        )}
        {live.state === "live" ? <Events wall={wall} zone={zone} /> : null}
      </div>
      <div className={styles.clock}>
        <p className={styles.time}>{timeIn(zone, now)}</p>
        <p className={styles.day}>{longDayText(dateIn(zone, now))}</p>
      </div>
    </header>
  );
}

function Sentence({ wall, now }: { wall: WallBoard; now: Instant }) {
  const { parts } = answerSentence(wall.rooms.map(morningRoom), now, wall.facility.timeZone);
  const say = useSay();
  const names = wall.rooms.map(({ name }) => name);
  return (
    <p className={styles.sentence} data-wall="sentence">
      {parts.map(({ text, tone }) => (
        <span key={text} className={classNames(tone !== "plain" && styles[tone])}>
          {sayAround(say, text, names)}{" "}
        </span>
      ))}
    </p>
  );
}

/** One line for what many rooms have in common; it stands on the board with its card. */
function Events({ wall, zone }: { wall: WallBoard; zone: string }) {
  const say = useSay();
  return wall.events.map(({ id, title, drill, at, rooms }) => (
    <p key={id} className={classNames(styles.event, !drill && styles.grave)} role="status" data-wall="event">
      <Mark shape={drill ? "unknown" : "barred"} />
      <span>
        <strong>{say(title)}</strong>, {rooms} {say(rooms === 1 ? "room" : "rooms")}, since {clockText(at, zone)}
      </span>
    </p>
  ));
}

function NotKnown({ since, ended }: { since: string; ended: boolean }) {
  return (
    <p className={styles.notLive} role="alert">
      <Mark shape="unknown" />
      <span>
        <strong>Not live since {since}.</strong> No state is known here. Go by the workstation itself.
        {ended ? " This screen is no longer signed in." : null}
      </span>
    </p>
  );
}
