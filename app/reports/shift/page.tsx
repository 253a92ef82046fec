import type { Metadata } from "next";
import Link from "next/link";
import { requirePerson } from "@/app/_edge/page-actor";
import { clockText, dayText } from "@/app/_parts/format";
import { Page, PageHeading } from "@/app/_ui/page";
import { first, type SearchParams } from "@/app/reports/range";
import { ReportTabs } from "@/app/reports/report-tabs";
import { readSession } from "@/lib/queries/session";
import { readShiftSheet } from "@/lib/queries/shift-sheet";
import { SHIFT_HOURS, shiftQuery } from "@/lib/schemas/report-shift";
import { dateIn, instantOf } from "@/lib/units/time";
import { PrintButton } from "./print-button.client";
import styles from "./shift.module.css";
import { ShiftParts } from "./shift-parts";

export const metadata: Metadata = { title: "Shift sheet" };

/** One sheet for whoever takes over: what cannot be used, what was found, changed and held, and what is left open. */
export default async function ShiftPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/reports/shift");
  const asked = shiftQuery.safeParse({ hours: first((await searchParams).hours) });
  const { hours } = asked.success ? asked.data : shiftQuery.parse({});
  const { facility } = await readSession(actor);
  const sheet = await readShiftSheet(actor, { hours });
  const zone = facility.timeZone;
  const dayOf = (at: string) => dayText(dateIn(zone, instantOf(at)));
  return (
    <Page>
      <ReportTabs />
      <PageHeading
        title="Shift sheet"
        sub={`${facility.name}, ${dayOf(sheet.from)} ${clockText(sheet.from, zone)} to ${dayOf(sheet.to)} ${clockText(sheet.to, zone)}`}
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
      <ShiftParts sheet={sheet} zone={zone} />
      <p className={styles.caution}>
        A record and planning aid as of {clockText(sheet.at, zone)}, not a medical device. It does not replace the
        check, the maker’s instructions or local rules.
      </p>
    </Page>
  );
}
