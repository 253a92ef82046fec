import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { Said } from "@/app/_parts/said.client";
import { whenRead } from "@/app/_parts/when-read";
import { Panel } from "@/app/_ui/panel";
import { Skeleton } from "@/app/_ui/skeleton";
import { readCompletion } from "@/lib/queries/completion";
import type { CompletionReport } from "@/lib/schemas/report";
import { CellDetail } from "./cell-detail";
import { CompletionChart } from "./completion-chart";
import { CompletionTable } from "./completion-table";
import { Counted } from "./counted";
import { Figures } from "./figures";
import { csvHref, first, type SearchParams } from "./range";
import { type Asked, askedDays, RangeFrame } from "./range-frame";
import styles from "./reports.module.css";

export const metadata: Metadata = { title: "Reports" };

/** Was every daily check done, by room and day? On screen, on paper, and as CSV. */
export default async function ReportsPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/reports");
  const params = await searchParams;
  const asked = await askedDays(actor, params);
  return (
    <RangeFrame
      path="/reports"
      title={<Said>Daily checks done</Said>}
      asked={asked}
      actions={
        <a href={csvHref(asked.range)} download className={styles.download}>
          Download as CSV
        </a>
      }
    >
      {
        await whenRead(
          readCompletion(actor, asked.range),
          (report) => <Completion report={report} asked={asked} params={params} />,
          <Skeleton what="the checks" picture="low" lines={12} />,
        )
      }
    </RangeFrame>
  );
}

interface CompletionProps {
  report: CompletionReport;
  asked: Asked;
  params: SearchParams;
}

function Completion({ report, asked: { range, facility }, params }: CompletionProps) {
  const room = report.rooms.find(({ roomId }) => roomId === first(params.room));
  const cell = room?.cells.find(({ date }) => date === first(params.day));
  return (
    <>
      <Figures report={report} />
      <Panel title="By day" aside="percent of the checks due that day, done in time">
        <CompletionChart report={report} />
      </Panel>
      {room && cell ? <CellDetail room={room.name} cell={cell} zone={facility.timeZone} /> : null}
      <CompletionTable report={report} range={range} shown={cell ? `${room?.roomId}:${cell.date}` : null} />
      <Counted />
    </>
  );
}
