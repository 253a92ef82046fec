import Link from "next/link";
import { clockText } from "@/app/_parts/format";
import { LocalTime } from "@/app/_parts/local-time";
import { MarksLine } from "@/app/_parts/marks-line";
import { MarkedWord } from "@/app/_parts/readiness-mark";
import { isPressing, roomStanding } from "@/app/_parts/room-standing";
import tones from "@/app/_parts/tones.module.css";
import { NEED_WORDS } from "@/app/_parts/words";
import type { RoomView } from "@/lib/schemas/room";
import { instantOf, type Timestamp } from "@/lib/units/time";
import { CheckButton } from "./check-button.client";
import styles from "./room.module.css";
import head from "./room-head.module.css";
import { SwapFirst } from "./swap/swap-buttons.client";

interface HeadProps {
  view: RoomView;
  /** Until when the state could be vouched for; null while it can. */
  lastKnown: Timestamp | null;
  onSwap: () => void;
  onChanged: () => void;
}

export function RoomHead({ view, lastKnown, onSwap, onChanged }: HeadProps) {
  return (
    <div className={head.head}>
      <div className={head.headText}>
        <p className={head.crumb}>
          <Link href="/" prefetch={false}>
            Rooms
          </Link>{" "}
          / {view.row.suite}
        </p>
        <div className={head.headLine}>
          <h1 className={head.name}>{view.row.name}</h1>
          <HeadState view={view} lastKnown={lastKnown} />
        </div>
        <HeadFacts view={view} />
      </div>
      <div className={head.headAction}>
        <CheckButton view={view} onChanged={onChanged} />
        <SwapFirst view={view} onSwap={onSwap} />
      </div>
    </div>
  );
}

function HeadState({ view, lastKnown }: { view: RoomView; lastKnown: Timestamp | null }) {
  const zone = view.facility.timeZone;
  const standing = roomStanding(view.row, zone);
  if (lastKnown) {
    return (
      <p className={head.state} aria-live="polite">
        <MarkedWord shape="unknown" tone="soft" size={34}>
          Not known
        </MarkedWord>
        <span className={styles.soft}>
          last known {clockText(lastKnown, zone)}: {standing.word.toLowerCase()}
        </span>
      </p>
    );
  }
  return (
    <p className={head.state} aria-live="polite">
      <MarkedWord shape={standing.shape} tone={standing.tone} size={34}>
        {standing.word}
      </MarkedWord>
      {standing.notes.map(({ text, tone }) => (
        <span key={text} className={tones[`note-${tone}`]}>
          {text}
        </span>
      ))}
    </p>
  );
}

function HeadFacts({ view: { row, facility, drive, at } }: { view: RoomView }) {
  const zone = facility.timeZone;
  return (
    <ul className={head.facts}>
      {row.marks.equipment || row.marks.provider ? (
        <li>
          <MarksLine marks={row.marks} zone={zone} now={at} />
        </li>
      ) : null}
      {row.firstCase ? (
        <li>
          First case <LocalTime at={row.firstCase} zone={zone} />
        </li>
      ) : null}
      {row.decideBy ? (
        <li className={isPressing(row, instantOf(at)) ? tones["note-stop"] : undefined}>
          Decide by <LocalTime at={row.decideBy} zone={zone} />
        </li>
      ) : null}
      {!row.readyForList && row.limits.length > 0 ? (
        <li>The list needs {row.needs.map((need) => NEED_WORDS[need]).join(", ")}</li>
      ) : null}
      {row.workstation ? (
        <li>
          Workstation {row.workstation.tag}, {row.workstation.model}
          {drive ? `, ${drive.replaceAll("-", " ")}` : null}
        </li>
      ) : null}
    </ul>
  );
}
