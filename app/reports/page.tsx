import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { dateText } from "@/app/_parts/format";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { readCompletion } from "@/lib/queries/completion";
import { readSession } from "@/lib/queries/session";
import { completionQuery } from "@/lib/schemas/report";
import { addDays, dateIn, instantOf } from "@/lib/units/time";
import { CellDetail } from "./cell-detail";
import { CompletionChart } from "./completion-chart";
import { CompletionTable } from "./completion-table";
import { Figures } from "./figures";
import { csvHref, first, type SearchParams } from "./range";
import { RangeForm } from "./range-form";
import styles from "./reports.module.css";

export const metadata: Metadata = { title: "Reports" };

const SHOWN_AT_FIRST = 14;

/** Was every daily check done, by room and day? On screen, on paper, and as CSV. */
export default async function ReportsPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/reports");
  const params = await searchParams;
  const session = await readSession(actor);
  const today = dateIn(session.facility.timeZone, instantOf(session.at));
  const usual = { from: addDays(today, 1 - SHOWN_AT_FIRST), to: today };
  const asked = completionQuery.safeParse({ from: first(params.from) || usual.from, to: first(params.to) || usual.to });
  const range = asked.success ? asked.data : usual;
  const report = await readCompletion(actor, range);
  const room = report.rooms.find(({ roomId }) => roomId === first(params.room));
  const cell = room?.cells.find(({ date }) => date === first(params.day));
  return (
    <Page>
      <PageHeading
        title="Daily checks done"
        sub={`${session.facility.name}, ${dateText(report.from)} to ${dateText(report.to)}`}
        actions={
          <a href={csvHref(range)} download className={styles.download}>
            Download as CSV
          </a>
        }
      />
      {asked.success ? null : (
        <Notice tone="heed" title="Those dates cannot be right">
          <p>
            {asked.error.issues.map(({ path, message }) => `${path.join(".")} ${message}`).join("; ")}. The last{" "}
            {SHOWN_AT_FIRST} days are shown instead.
          </p>
        </Notice>
      )}
      <RangeForm range={range} today={today} />
      <Figures report={report} />
      <Panel title="By day" aside="percent of the checks due that day, done in time">
        <CompletionChart report={report} />
      </Panel>
      {room && cell ? <CellDetail room={room.name} cell={cell} zone={session.facility.timeZone} /> : null}
      <CompletionTable report={report} range={range} shown={cell ? `${room?.roomId}:${cell.date}` : null} />
    </Page>
  );
}
