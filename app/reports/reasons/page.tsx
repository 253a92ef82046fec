import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { numberText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { whenRead } from "@/app/_parts/when-read";
import { Skeleton } from "@/app/_ui/skeleton";
import type { SearchParams } from "@/app/reports/range";
import { askedDays, RangeFrame } from "@/app/reports/range-frame";
import styles from "@/app/reports/reports.module.css";
import { readReasons } from "@/lib/queries/reasons";
import type { ReasonsReport } from "@/lib/schemas/report-reasons";
import { ReasonsList } from "./reasons-list";

export const metadata: Metadata = { title: "Reasons" };

const PATH = "/reports/reasons";

/** Why rooms were not simply ready: each rule that showed, how often, where, and how long until it was gone. */
export default async function ReasonsPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson(PATH);
  const asked = await askedDays(actor, await searchParams);
  return (
    <RangeFrame path={PATH} title="Reasons" asked={asked}>
      {
        await whenRead(
          readReasons(actor, asked.range),
          (report) => (
            <>
              <MostOften report={report} />
              <ReasonsList report={report} />
            </>
          ),
          <Skeleton what="the reasons" lines={12} />,
        )
      }
    </RangeFrame>
  );
}

function MostOften({ report: { reasons, roomDays } }: { report: ReasonsReport }) {
  const first = reasons.find(({ severity }) => severity === "stops" || severity === "out");
  return (
    <p className={styles.answer}>
      {first === undefined ? (
        <Said>Nothing kept a room from starting in these days.</Said>
      ) : (
        <>
          <Said>What kept rooms from starting most often:</Said> <strong>{first.inBrief}</strong>, on{" "}
          {numberText(first.roomDays)} of {numberText(roomDays)} <Said>room-days.</Said>
        </>
      )}{" "}
      <span className={styles.soft}>
        <Said>
          A rule that shows in more than one room of five on an ordinary morning is probably set wrong: look at it in
          the set-up.
        </Said>
      </span>
    </p>
  );
}
