import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { dateText } from "@/app/_parts/format";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { readCompletion } from "@/lib/queries/completion";
import { readSession } from "@/lib/queries/session";
import { dateIn, instantOf } from "@/lib/units/time";
import { CellDetail } from "./cell-detail";
import { CompletionChart } from "./completion-chart";
import { CompletionTable } from "./completion-table";
import { Figures } from "./figures";
import { askedRange, csvHref, first, type SearchParams } from "./range";
import { RangeForm, RangeProblem } from "./range-form";
import { ReportTabs } from "./report-tabs";
import styles from "./reports.module.css";

export const metadata: Metadata = { title: "Reports" };

/** Was every daily check done, by room and day? On screen, on paper, and as CSV. */
export default async function ReportsPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/reports");
  const params = await searchParams;
  const session = await readSession(actor);
  const today = dateIn(session.facility.timeZone, instantOf(session.at));
  const { range, problem } = askedRange(params, today);
  const report = await readCompletion(actor, range);
  const room = report.rooms.find(({ roomId }) => roomId === first(params.room));
  const cell = room?.cells.find(({ date }) => date === first(params.day));
  return (
    <Page>
      <ReportTabs />
      <PageHeading
        title="Daily checks done"
        sub={`${session.facility.name}, ${dateText(report.from)} to ${dateText(report.to)}`}
        actions={
          <a href={csvHref(range)} download className={styles.download}>
            Download as CSV
          </a>
        }
      />
      <RangeProblem problem={problem} />
      <RangeForm path="/reports" range={range} today={today} />
      <Figures report={report} />
      <Panel title="By day" aside="percent of the checks due that day, done in time">
        <CompletionChart report={report} />
      </Panel>
      {room && cell ? <CellDetail room={room.name} cell={cell} zone={session.facility.timeZone} /> : null}
      <CompletionTable report={report} range={range} shown={cell ? `${room?.roomId}:${cell.date}` : null} />
    </Page>
  );
}
