import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { dateText, longDayText } from "@/app/_parts/format";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { askedRange, first, type SearchParams } from "@/app/reports/range";
import { RangeForm, RangeProblem } from "@/app/reports/range-form";
import { ReportTabs } from "@/app/reports/report-tabs";
import { readReadyBy } from "@/lib/queries/ready-by";
import { readSession } from "@/lib/queries/session";
import { dateIn, instantOf } from "@/lib/units/time";
import { MorningChart } from "./morning-chart";
import { MorningsTable } from "./mornings-table";
import { ReadyByAnswer } from "./ready-by-answer";

export const metadata: Metadata = { title: "Ready by" };

const PATH = "/reports/ready-by";

/** Each morning: which rooms could start when their first case came, and how much time was left. */
export default async function ReadyByPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson(PATH);
  const params = await searchParams;
  const session = await readSession(actor);
  const zone = session.facility.timeZone;
  const today = dateIn(zone, instantOf(session.at));
  const { range, problem } = askedRange(params, today);
  const report = await readReadyBy(actor, range);
  const withRooms = report.mornings.filter(({ running }) => running > 0);
  const morning = withRooms.find(({ date }) => date === first(params.day)) ?? withRooms.at(-1) ?? null;
  return (
    <Page>
      <ReportTabs />
      <PageHeading
        title="Ready by the first case"
        sub={`${session.facility.name}, ${dateText(report.from)} to ${dateText(report.to)}`}
      />
      <RangeProblem problem={problem} />
      <RangeForm path={PATH} range={range} today={today} />
      <ReadyByAnswer mornings={withRooms} />
      {morning ? (
        <Panel title={longDayText(morning.date)} aside="from when each room could start, and its first case">
          <MorningChart morning={morning} zone={zone} now={instantOf(report.at)} />
        </Panel>
      ) : null}
      <MorningsTable mornings={withRooms} path={PATH} range={range} shown={morning?.date ?? null} />
    </Page>
  );
}
