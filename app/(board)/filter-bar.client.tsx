"use client";

import { useEffect, useRef } from "react";
import { countText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { useSay } from "@/app/_parts/say.client";
import { type Chip, ChipLinks, turnInPlace } from "@/app/_ui/chip-links.client";
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
  const say = useSay();
  const suites = suitesOf(rooms);
  const countOf = (change: Partial<BoardFilter>) => shownRooms(rooms, { ...filter, ...change }, me, known).length;
  const shownChoices = SHOWN.filter((show) => show !== "mine" || filter.show === show || countOf({ show }) > 0);
  const chip = (change: Partial<BoardFilter>, label: string, count: number | null): Chip => {
    const href = addressOf({ ...filter, ...change });
    return { href, label, count, here: href === addressOf(filter) };
  };
  return (
    <div className={styles.bar}>
      <ChipLinks
        name={say("Which rooms")}
        chips={[
          chip({ show: null }, say("All rooms"), countOf({ show: null })),
          ...shownChoices.map((show) => chip({ show }, SHOWN_WORDS[show], known ? countOf({ show }) : null)),
        ]}
      />
      {suites.length > 1 ? (
        <ChipLinks
          name={say("Suite")}
          chips={[
            chip({ suite: null }, say("All suites"), null),
            ...suites.map((suite) => chip({ suite }, suite, countOf({ suite }))),
          ]}
        />
      ) : null}
      <Find filter={filter} />
    </div>
  );
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
          <span>
            <Said>Find a room</Said>
          </span>
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
          <Said>{shown === 0 ? "No room is like that" : `${shown} of ${countText(of, "room")} shown`}</Said>
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
