import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { longDayText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { whenRead } from "@/app/_parts/when-read";
import { Panel } from "@/app/_ui/panel";
import { Skeleton } from "@/app/_ui/skeleton";
import { first, type SearchParams } from "@/app/reports/range";
import { type Asked, askedDays, RangeFrame } from "@/app/reports/range-frame";
import { readReadyBy } from "@/lib/queries/ready-by";
import type { ReadyByReport } from "@/lib/schemas/report-ready-by";
import { instantOf } from "@/lib/units/time";
import { MorningChart } from "./morning-chart";
import { MorningsTable } from "./mornings-table";
import { ReadyByAnswer } from "./ready-by-answer";

export const metadata: Metadata = { title: "Ready by" };

const PATH = "/reports/ready-by";

/** Each morning: which rooms could start when their first case came, and how much time was left. */
export default async function ReadyByPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson(PATH);
  const params = await searchParams;
  const asked = await askedDays(actor, params);
  return (
    <RangeFrame path={PATH} title="Ready by the first case" asked={asked}>
      {
        await whenRead(
          readReadyBy(actor, asked.range),
          (report) => <ReadyBy report={report} asked={asked} day={first(params.day)} />,
          <Skeleton what="the mornings" picture="tall" />,
        )
      }
    </RangeFrame>
  );
}

/** The morning that was asked for, or the last one. */
function ReadyBy({ report, asked, day }: { report: ReadyByReport; asked: Asked; day: string | undefined }) {
  const withRooms = report.mornings.filter(({ running }) => running > 0);
  const morning = withRooms.find(({ date }) => date === day) ?? withRooms.at(-1) ?? null;
  return (
    <>
      <ReadyByAnswer mornings={withRooms} />
      {morning ? (
        <Panel
          title={longDayText(morning.date)}
          aside={<Said>from when each room could start, and its first case</Said>}
        >
          <MorningChart morning={morning} zone={asked.facility.timeZone} now={instantOf(report.at)} />
        </Panel>
      ) : null}
      <MorningsTable mornings={withRooms} path={PATH} range={asked.range} shown={morning?.date ?? null} />
    </>
  );
}
