"use client";

import { type MouseEvent, useEffect, useRef } from "react";
import { countText } from "@/app/_parts/format";
import { classNames } from "@/app/_ui/class-names";
import type { BoardRow } from "@/lib/schemas/board";
import { addressOf, type BoardFilter, EVERY_ROOM, isFiltered, SHOWN, type Shown, shownRooms, suitesOf } from "./filter";
import styles from "./filter.module.css";

interface FilterBarProps {
  rooms: readonly BoardRow[];
  filter: BoardFilter;
  /** The name of who looks, for "mine". */
  me: string;
  /** Whether the states are known: without, nothing is counted by them. */
  known: boolean;
}

const SHOWN_WORDS: Record<Shown, string> = { problems: "Problems", "to-check": "To check", mine: "Mine" };

/** Links, so that a choice stands in the address. They turn in place: the rooms are here already. */
export function FilterBar({ rooms, filter, me, known }: FilterBarProps) {
  const suites = suitesOf(rooms);
  const countOf = (change: Partial<BoardFilter>) => shownRooms(rooms, { ...filter, ...change }, me, known).length;
  const shownChoices = SHOWN.filter((show) => show !== "mine" || filter.show === show || countOf({ show }) > 0);
  return (
    <div className={styles.bar}>
      <nav aria-label="Which rooms" className={styles.choices}>
        <Choice to={{ ...filter, show: null }} filter={filter} label="All rooms" count={countOf({ show: null })} />
        {shownChoices.map((show) => (
          <Choice
            key={show}
            to={{ ...filter, show }}
            filter={filter}
            label={SHOWN_WORDS[show]}
            count={known ? countOf({ show }) : null}
          />
        ))}
      </nav>
      {suites.length > 1 ? (
        <nav aria-label="Suite" className={styles.choices}>
          <Choice to={{ ...filter, suite: null }} filter={filter} label="All suites" count={null} />
          {suites.map((suite) => (
            <Choice key={suite} to={{ ...filter, suite }} filter={filter} label={suite} count={countOf({ suite })} />
          ))}
        </nav>
      ) : null}
      <Find filter={filter} />
    </div>
  );
}

interface ChoiceProps {
  to: BoardFilter;
  filter: BoardFilter;
  label: string;
  count: number | null;
}

function Choice({ to, filter, label, count }: ChoiceProps) {
  const href = addressOf(to);
  const isHere = href === addressOf(filter);
  return (
    <a
      href={href}
      className={classNames(styles.choice, count === 0 && !isHere && styles.none)}
      aria-current={isHere ? "true" : undefined}
      onClick={(event) => turnInPlace(event, href)}
    >
      {label}
      {count === null ? null : <span className={styles.count}> {count}</span>}
    </a>
  );
}

/** A click with a key held, or in another way than plain, is the browser's own: it opens another tab. */
function turnInPlace(event: MouseEvent, href: string): void {
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey || event.button !== 0) return;
  event.preventDefault();
  window.history.pushState(null, "", href);
}

/** The field keeps its own text while somebody types in it: the address follows a moment later, and must not take letters back. */
function Find({ filter }: { filter: BoardFilter }) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (field.current && document.activeElement !== field.current) field.current.value = filter.find;
  }, [filter.find]);
  return (
    <search className={styles.find}>
      <form action="/" onSubmit={(event) => event.preventDefault()}>
        {filter.suite === null ? null : <input type="hidden" name="suite" value={filter.suite} />}
        {filter.show === null ? null : <input type="hidden" name="show" value={filter.show} />}
        <label>
          <span>Find a room</span>
          <input
            ref={field}
            type="search"
            name="find"
            autoComplete="off"
            maxLength={40}
            defaultValue={filter.find}
            onChange={({ target }) =>
              window.history.replaceState(null, "", addressOf({ ...filter, find: target.value }))
            }
          />
        </label>
      </form>
    </search>
  );
}

/** The same morning for a corridor and on paper. The wall is another document, without anybody's session in it, so this is no link inside the application. */
export function OtherWays() {
  return (
    <span className={styles.ways}>
      <a href="/wall" className={styles.way}>
        Wall
      </a>
      <button type="button" className={styles.way} onClick={() => window.print()}>
        Print the morning
      </button>
    </span>
  );
}

/** What a filter leaves out is said, so that nobody takes a part for the whole. */
export function FilterLine({ filter, shown, of }: { filter: BoardFilter; shown: number; of: number }) {
  return (
    <p className={styles.line} role="status">
      {isFiltered(filter) ? (
        <>
          {shown === 0 ? "No room is like that" : `${shown} of ${countText(of, "room")} shown`}
          {filter.suite === null ? null : `, ${filter.suite}`}
          {filter.show === null ? null : `, ${SHOWN_WORDS[filter.show].toLowerCase()}`}
          {filter.find.trim() === "" ? null : `, named “${filter.find.trim()}”`}.{" "}
          <a href="/" onClick={(event) => turnInPlace(event, addressOf(EVERY_ROOM))}>
            Show all
          </a>
        </>
      ) : null}
    </p>
  );
}
