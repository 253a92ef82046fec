import { Mark } from "@/app/_parts/readiness-mark";
import { classNames } from "@/app/_ui/class-names";
import { answerSentence } from "@/lib/domain/morning";
import type { WallRow } from "@/lib/schemas/wall";
import { type Instant, instantOf } from "@/lib/units/time";
import styles from "./wall.module.css";
import cells from "./wall-cell.module.css";
import grids from "./wall-grid.module.css";
import { type WallSuite, wallGrid } from "./wall-layout";
import { morningRoom, type WallWords, wallWords } from "./wall-words";

interface WallGridProps {
  suites: readonly WallSuite[];
  now: Instant;
  zone: string;
  /** A facility of one suite does not name it. */
  named: boolean;
  /** Whether the states may be told at all. */
  known: boolean;
}

export function WallGridView({ suites, now, zone, named, known }: WallGridProps) {
  const { columns, lines, strips, notes } = wallGrid(suites, named);
  return (
    <div className={grids.frame}>
      <div
        className={grids.grid}
        data-columns={columns}
        data-lines={lines}
        data-strips={strips}
        data-notes={notes}
        data-wall="grid"
      >
        {suites.map(({ name, rooms }) => (
          <section key={name} className={grids.suite} aria-label={name}>
            {named ? (
              <h2 className={strips > 0 ? styles.strip : styles.suiteCell}>
                <span>{name}</span>
                {known ? <span className={styles.suiteCount}>{readyCount(rooms, now, zone)}</span> : null}
              </h2>
            ) : null}
            <ul className={grids.rooms}>
              {rooms.map((row) => (
                <Cell
                  key={row.roomId}
                  name={row.name}
                  words={known && !isOver(row, now) ? wallWords(row, now, zone, notes) : UNKNOWN}
                />
              ))}
            </ul>
          </section>
        ))}
      </div>
    </div>
  );
}

const UNKNOWN: WallWords = { shape: "unknown", tone: "soft", word: "Not known", notes: [] };

/** The clock has ended the judgement and the new one is not here yet. */
const isOver = ({ goodUntil }: WallRow, now: Instant): boolean => goodUntil !== null && instantOf(goodUntil) <= now;

/** Names longer than the first are written smaller, longer than the second on two lines. */
const SHORT = 5;
const LONG = 8;

function nameSize(name: string): string | undefined {
  if (name.length > LONG) return cells.longName;
  return name.length > SHORT ? cells.middleName : undefined;
}

function readyCount(rooms: readonly WallRow[], now: Instant, zone: string): string {
  const { running, ready } = answerSentence(rooms.map(morningRoom), now, zone).counts;
  return running === 0 ? "closed" : `${ready} of ${running} ready`;
}

function Cell({ name, words }: { name: string; words: WallWords }) {
  const { shape, tone, word, notes } = words;
  return (
    <li className={classNames(cells.cell, cells[`cell-${tone}`])}>
      <div className={cells.top}>
        <h3 className={classNames(cells.name, nameSize(name))} data-wall="name">
          {name}
        </h3>
        <span className={cells.mark}>
          <Mark shape={shape} />
        </span>
      </div>
      <p className={cells.word} data-wall="word">
        {word}
      </p>
      {notes.map(({ text, tone: noteTone }) => (
        <p key={text} className={classNames(cells.note, cells[`note-${noteTone}`])} data-wall="note">
          {text}
        </p>
      ))}
    </li>
  );
}
