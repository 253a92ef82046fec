import type { ReactNode } from "react";
import { dateText } from "@/app/_parts/format";
import { Page, PageHeading } from "@/app/_ui/page";
import { readSession } from "@/lib/queries/session";
import { dateIn, instantOf, type LocalDate } from "@/lib/units/time";
import { askedRange, type Range, type SearchParams } from "./range";
import { RangeForm, RangeProblem } from "./range-form";
import { ReportTabs } from "./report-tabs";

/** The days a report is asked for, and the facility it is about. */
export interface Asked {
  readonly facility: { readonly name: string; readonly timeZone: string };
  readonly today: LocalDate;
  readonly range: Range;
  readonly problem: string | null;
}

export async function askedDays(actor: Parameters<typeof readSession>[0], params: SearchParams): Promise<Asked> {
  const { facility, at } = await readSession(actor);
  const today = dateIn(facility.timeZone, instantOf(at));
  return { facility, today, ...askedRange(params, today) };
}

interface RangeFrameProps {
  path: string;
  title: ReactNode;
  asked: Asked;
  actions?: ReactNode;
  children: ReactNode;
}

/** What every report over some days has around it: it is there before the report has been read. */
export function RangeFrame({ path, title, asked, actions, children }: RangeFrameProps) {
  const { facility, today, range, problem } = asked;
  return (
    <Page>
      <ReportTabs />
      <PageHeading
        title={title}
        sub={`${facility.name}, ${dateText(range.from)} to ${dateText(range.to)}`}
        actions={actions}
      />
      <RangeProblem problem={problem} />
      <RangeForm path={path} range={range} today={today} />
      {children}
    </Page>
  );
}
