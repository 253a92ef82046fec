import Link from "next/link";
import { dayText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { classNames } from "@/app/_ui/class-names";
import { DataTable } from "@/app/_ui/data-table";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { CompletionReport } from "@/lib/schemas/report";
import { CELL_LOOK, type Cell, CellShape } from "./cell-look";
import { cellHref, type Range } from "./range";
import styles from "./reports.module.css";
import { ShareBar } from "./share-bar";

/** Rooms down, days across. Each cell opens its record; the key says what the shapes mean. */
export function CompletionTable({
  report,
  range,
  shown,
}: {
  report: CompletionReport;
  range: Range;
  shown: string | null;
}) {
  if (report.rooms.length === 0)
    return (
      <p>
        <Said>This facility has no rooms yet.</Said>
      </p>
    );
  const days = report.rooms[0]?.cells.map(({ date }) => date) ?? [];
  return (
    <div className={styles.sheet}>
      <CellKey />
      <DataTable name="Daily checks by room and day">
        <thead>
          <tr>
            <th scope="col" className={styles.roomHead}>
              <Said>Room</Said>
            </th>
            <th scope="col">In time</th>
            {days.map((date) => (
              <th key={date} scope="col" className={styles.dayHead}>
                <DayName date={date} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {report.rooms.map((room) => (
            <tr key={room.roomId}>
              <th scope="row" className={styles.roomHead}>
                {room.name}
              </th>
              <td className={styles.inTime}>
                <span>{room.due === 0 ? "n/a" : `${room.done} of ${room.due}`}</span>
                <ShareBar beside of={room.due} inTime={room.done} late={lateIn(room)} />
              </td>
              {room.cells.map((cell) => (
                <td key={cell.date} className={styles.cell}>
                  <CellLink
                    cell={cell}
                    href={cellHref(range, room.roomId, cell.date)}
                    shown={shown === `${room.roomId}:${cell.date}`}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </DataTable>
    </div>
  );
}

const lateIn = ({ cells }: CompletionReport["rooms"][number]): number =>
  cells.filter(({ state }) => state === "late").length;

function CellLink({ cell, href, shown }: { cell: Cell; href: string; shown: boolean }) {
  const look = classNames(styles.mark, styles[cell.state], shown && styles.shown);
  const marks = (
    <>
      <CellShape state={cell.state} />
      <VisuallyHidden>
        {CELL_LOOK[cell.state].word}
        {cell.failures.length > 0 ? `, ${cell.failures.length} failing` : ""}
      </VisuallyHidden>
      {cell.failures.length > 0 ? <span className={styles.flag} aria-hidden="true" /> : null}
    </>
  );
  if (cell.state === "closed" || cell.state === "not-due") return <span className={look}>{marks}</span>;
  return (
    <Link href={href} prefetch={false} scroll={false} className={look}>
      {marks}
    </Link>
  );
}

/** Weekday over date, so that two weeks stand side by side on a desk. */
function DayName({ date }: { date: string }) {
  const [weekday, ...rest] = dayText(date).split(" ");
  return (
    <>
      {weekday}
      <br />
      {rest.join(" ")}
    </>
  );
}

function CellKey() {
  return (
    <ul className={styles.key} aria-label="What the shapes mean">
      {Object.entries(CELL_LOOK).map(([state, { word }]) => (
        <li key={state} className={styles[state]}>
          <CellShape state={state as Cell["state"]} /> {word}
        </li>
      ))}
      <li>
        <span className={styles.flag} aria-hidden="true" /> something failed that day
      </li>
    </ul>
  );
}
