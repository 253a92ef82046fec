import type { Metadata } from "next";
import Link from "next/link";
import { requirePerson } from "@/app/_edge/page-actor";
import { dayText } from "@/app/_parts/format";
import { whenRead } from "@/app/_parts/when-read";
import { Page, PageHeading } from "@/app/_ui/page";
import { Skeleton } from "@/app/_ui/skeleton";
import { first, type SearchParams } from "@/app/reports/range";
import { ReportTabs } from "@/app/reports/report-tabs";
import { readSession } from "@/lib/queries/session";
import { readShiftSheet } from "@/lib/queries/shift-sheet";
import { SHIFT_HOURS, shiftQuery } from "@/lib/schemas/report-shift";
import { dateIn, HOUR, type Instant, instantOf, later, timeIn } from "@/lib/units/time";
import { PrintButton } from "./print-button.client";
import styles from "./shift.module.css";
import { ShiftParts } from "./shift-parts";

export const metadata: Metadata = { title: "Shift sheet" };

/** One sheet for whoever takes over: what cannot be used, what was found, changed and held, and what is left open. */
export default async function ShiftPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/reports/shift");
  const asked = shiftQuery.safeParse({ hours: first((await searchParams).hours) });
  const { hours } = asked.success ? asked.data : shiftQuery.parse({});
  const { facility, at } = await readSession(actor);
  const to = instantOf(at);
  const zone = facility.timeZone;
  return (
    <Page>
      <ReportTabs />
      <PageHeading
        title="Shift sheet"
        sub={`${facility.name}, ${momentText(later(to, -hours * HOUR), zone)} to ${momentText(to, zone)}`}
        actions={<PrintButton />}
      />
      <nav aria-label="How far back" className={styles.spans}>
        {SHIFT_HOURS.map((span) => (
          <Link
            key={span}
            href={`/reports/shift?hours=${span}`}
            prefetch={false}
            aria-current={span === hours ? "true" : undefined}
          >
            {span} hours
          </Link>
        ))}
      </nav>
      {
        await whenRead(
          readShiftSheet(actor, { hours }),
          (sheet) => <ShiftParts sheet={sheet} zone={zone} />,
          <Skeleton what="the sheet" lines={12} />,
        )
      }
    </Page>
  );
}

const momentText = (at: Instant, zone: string): string => `${dayText(dateIn(zone, at))} ${timeIn(zone, at)}`;
