import Link from "next/link";
import { clockText, countText, longDayText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import type { HistoryEntry } from "@/lib/schemas/history";
import { dateIn, instantOf } from "@/lib/units/time";
import { type HistoryQuery, historyHref } from "./address";
import styles from "./history.module.css";

interface Day {
  readonly date: string;
  readonly entries: HistoryEntry[];
}

/** Entries by the facility's day, each a sentence with its time and person. */
export function EntryList({
  entries,
  zone,
  query,
}: {
  entries: readonly HistoryEntry[];
  zone: string;
  query: HistoryQuery;
}) {
  if (entries.length === 0) return <p>Nothing is recorded for this choice.</p>;
  return (
    <>
      {byDay(entries, zone).map(({ date, entries: ofDay }) => (
        <section key={date} aria-labelledby={`day-${date}`} className={styles.day}>
          <h2 id={`day-${date}`}>{longDayText(date)}</h2>
          <ol className={styles.entries}>
            {ofDay.map((entry) => (
              <li key={entry.sequence} className={styles.entry}>
                <Entry entry={entry} zone={zone} query={query} />
              </li>
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}

function byDay(entries: readonly HistoryEntry[], zone: string): Day[] {
  const days: Day[] = [];
  for (const entry of entries) {
    const date = dateIn(zone, instantOf(entry.at));
    const last = days.at(-1);
    if (last?.date === date) last.entries.push(entry);
    else days.push({ date, entries: [entry] });
  }
  return days;
}

function Entry({ entry, zone, query }: { entry: HistoryEntry; zone: string; query: HistoryQuery }) {
  const { person, rooms, workstations } = entry;
  return (
    <>
      <time dateTime={entry.at} className={styles.time}>
        {clockText(entry.at, zone)}
      </time>
      <div className={styles.words}>
        <p>{entry.text}</p>
        <Details lines={entry.details} />
        <p className={styles.who}>
          {person.id ? (
            <Link href={historyHref({ person: person.id, room: query.room })} prefetch={false}>
              {person.name}
            </Link>
          ) : (
            person.name
          )}
          {entry.role ? `, ${entry.role.replace("-", " ")}` : ""}
          <Rooms rooms={rooms} query={query} />
          {workstations.length > MOST_NAMED ? (
            <span> · {countText(workstations.length, "workstation")}</span>
          ) : (
            workstations.map(({ id, tag }) => <span key={id}> · {tag}</span>)
          )}
          <span className={styles.sequence}> · no. {entry.sequence}</span>
        </p>
      </div>
    </>
  );
}

/** An import names every room it touched; a sentence does not. */
const MOST_NAMED = 4;

function Rooms({ rooms, query }: { rooms: HistoryEntry["rooms"]; query: HistoryQuery }) {
  if (rooms.length > MOST_NAMED)
    return (
      <span>
        {" "}
        · <Said>{countText(rooms.length, "room")}</Said>
      </span>
    );
  return rooms.map(({ id, name }) => (
    <span key={id}>
      {" · "}
      <Link href={historyHref({ room: id, person: query.person })} prefetch={false}>
        {name}
      </Link>
    </span>
  ));
}

/** A few lines stand open; a whole check's answers wait to be asked for. */
const MOST_LINES = 4;

function Details({ lines }: { lines: readonly string[] }) {
  if (lines.length === 0) return null;
  const list = (
    <ul className={styles.details}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
  if (lines.length <= MOST_LINES) return list;
  return (
    <details>
      <summary className={styles.more}>{countText(lines.length, "line")}</summary>
      {list}
    </details>
  );
}
