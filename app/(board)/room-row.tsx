import Link from "next/link";
import { clockText, minutesText, numberText, quantityText } from "@/app/_parts/format";
import { LocalTime } from "@/app/_parts/local-time";
import { MarksLine } from "@/app/_parts/marks-line";
import { MarkedWord } from "@/app/_parts/readiness-mark";
import { isPressing, roomStanding } from "@/app/_parts/room-standing";
import tones from "@/app/_parts/tones.module.css";
import { classNames } from "@/app/_ui/class-names";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import { needsAttention } from "@/lib/domain/morning";
import type { BoardRow } from "@/lib/schemas/board";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";
import { isByTemplate } from "./by-template";
import { MorningStrip } from "./morning-strip";
import styles from "./room-row.module.css";
import { changesByClock, workTitle } from "./row-facts";
import type { StripScale } from "./strip-scale";

interface RoomRowProps {
  row: BoardRow;
  scale: StripScale;
  zone: string;
  /** Until when the row could be vouched for; null while it can. */
  lastKnown: Timestamp | null;
  tellTemplate: boolean;
}

export function RoomRow({ row, scale, zone, lastKnown, tellTemplate }: RoomRowProps) {
  return (
    <li className={classNames(styles.row, lastKnown && styles.withdrawn, !needsAttention(row) && styles.calm)}>
      <h3 className={styles.room}>
        <Link href={`/rooms/${row.roomId}`} prefetch={false} className={styles.roomLink}>
          {row.name}
        </Link>
      </h3>
      <State row={row} zone={zone} withdrawnAt={lastKnown} />
      <Why row={row} zone={zone} now={scale.now} template={tellTemplate && isByTemplate(row)} />
      <div className={styles.strip}>
        <MorningStrip row={row} scale={scale} zone={zone} />
      </div>
      <Reserve row={row} />
      <Until row={row} zone={zone} />
    </li>
  );
}

function State({ row, zone, withdrawnAt }: { row: BoardRow; zone: string; withdrawnAt: Timestamp | null }) {
  const standing = roomStanding(row, zone);
  if (withdrawnAt) {
    return (
      <div className={styles.state}>
        <MarkedWord shape="unknown" tone="soft">
          Not known
        </MarkedWord>
        <p className={styles.notes}>
          last known {clockText(withdrawnAt, zone)}: {standing.word.toLowerCase()}
        </p>
      </div>
    );
  }
  return (
    <div className={styles.state}>
      <MarkedWord shape={standing.shape} tone={standing.tone}>
        {standing.word}
      </MarkedWord>
      {standing.notes.length > 0 ? (
        <p className={styles.notes}>
          {standing.notes.map(({ text, tone }) => (
            <span key={text} className={tones[`note-${tone}`]}>
              {text}
            </span>
          ))}
        </p>
      ) : null}
    </div>
  );
}

interface WhyProps {
  row: BoardRow;
  zone: string;
  now: Instant;
  /** Say that the room runs by the weekly template. */
  template: boolean;
}

function Why({ row, zone, now, template }: WhyProps) {
  const marked = row.state !== "do-not-use" && (row.marks.equipment || row.marks.provider);
  return (
    <div className={styles.why}>
      {row.headline && row.headlineRule !== "provider-mark-owed" ? (
        <p>
          {row.headline}
          {row.moreReasons > 0 ? <span className={styles.more}> and {row.moreReasons} more</span> : null}
        </p>
      ) : null}
      <Under row={row} zone={zone} now={now} template={template} />
      {marked ? (
        <p className={styles.soft}>
          <MarksLine marks={row.marks} zone={zone} now={timestampOf(now)} />
        </p>
      ) : null}
    </div>
  );
}

/** Who is on it, and until when that can wait. */
function Under({ row, zone, now, template }: WhyProps) {
  const firstCase = row.occupancy.state === "idle" ? row.firstCase : null;
  if (row.work.length === 0 && !firstCase && !row.decideBy) return null;
  return (
    <p className={styles.under}>
      {row.work.length > 0 ? <Who row={row} zone={zone} /> : null}
      {row.decideBy ? (
        <span className={classNames(styles.decide, isPressing(row, now) && styles.pressing)}>
          Decide by <LocalTime at={row.decideBy} zone={zone} />
        </span>
      ) : null}
      {firstCase ? (
        <span className={styles.stripTold}>
          First case <LocalTime at={firstCase} zone={zone} />
        </span>
      ) : null}
      {template ? <span>weekly template</span> : null}
    </p>
  );
}

function Who({ row, zone }: { row: BoardRow; zone: string }) {
  const [first, ...others] = row.work;
  if (!first) return null;
  const title = workTitle(row);
  return (
    <span>
      {title ? `${title}: ` : null}
      {first.person && first.claimedAt ? (
        <>
          {first.person}, since <LocalTime at={first.claimedAt} zone={zone} />
        </>
      ) : (
        <em>{title ? "nobody yet" : "Nobody on it yet"}</em>
      )}
      {` · ${minutesText(first.minutes)}`}
      {others.length > 0 ? ` · ${others.length} more to do` : null}
    </span>
  );
}

function Reserve({ row }: { row: BoardRow }) {
  if (!row.reserve) return <div className={styles.reserve} />;
  const { reading, litres, minutesByHand } = row.reserve;
  return (
    <div className={styles.reserve}>
      <span className={styles.cellName}>Reserve O₂ </span>
      <span>{quantityText(reading)}</span>
      {litres === null ? null : <span className={styles.soft}>{numberText(litres, 0)} L</span>}
      {minutesByHand === null ? null : (
        <span className={styles.soft}>
          <VisuallyHidden>, by hand for </VisuallyHidden>
          {minutesText(minutesByHand)}
        </span>
      )}
    </div>
  );
}

function Until({ row, zone }: { row: BoardRow; zone: string }) {
  const until = changesByClock(row);
  if (!until) return <div className={styles.until} />;
  return (
    <div className={styles.until}>
      <span className={styles.cellName}>Good until </span>
      <LocalTime at={until} zone={zone} />
    </div>
  );
}
