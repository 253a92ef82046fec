import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { dateText, numberText } from "@/app/_parts/format";
import { Page, PageHeading } from "@/app/_ui/page";
import { askedRange, type SearchParams } from "@/app/reports/range";
import { RangeForm, RangeProblem } from "@/app/reports/range-form";
import { ReportTabs } from "@/app/reports/report-tabs";
import styles from "@/app/reports/reports.module.css";
import { readReasons } from "@/lib/queries/reasons";
import { readSession } from "@/lib/queries/session";
import { dateIn, instantOf } from "@/lib/units/time";
import { ReasonsTable } from "./reasons-table";

export const metadata: Metadata = { title: "Reasons" };

const PATH = "/reports/reasons";

/** Why rooms were not simply ready: each rule that showed, how often, where, and how long until it was gone. */
export default async function ReasonsPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson(PATH);
  const params = await searchParams;
  const session = await readSession(actor);
  const today = dateIn(session.facility.timeZone, instantOf(session.at));
  const { range, problem } = askedRange(params, today);
  const report = await readReasons(actor, range);
  const stopping = report.reasons.filter(({ severity }) => severity === "stops" || severity === "out");
  return (
    <Page>
      <ReportTabs />
      <PageHeading
        title="Reasons"
        sub={`${session.facility.name}, ${dateText(report.from)} to ${dateText(report.to)}`}
      />
      <RangeProblem problem={problem} />
      <RangeForm path={PATH} range={range} today={today} />
      <p className={styles.answer}>
        {stopping.length === 0 ? (
          "Nothing kept a room from starting in these days."
        ) : (
          <>
            <strong>{stopping[0]?.what}</strong> kept rooms from starting most often: on{" "}
            {numberText(stopping[0]?.roomDays ?? 0)} of {numberText(report.roomDays)} room-days.
          </>
        )}{" "}
        <span className={styles.soft}>
          A rule that shows in more than one room of five on an ordinary morning is probably set wrong: look at it in
          the set-up.
        </span>
      </p>
      <ReasonsTable report={report} />
    </Page>
  );
}
