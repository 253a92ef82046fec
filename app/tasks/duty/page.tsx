import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { clockText, longDayText } from "@/app/_parts/format";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { DutyLine } from "@/app/tasks/duty-line";
import { TaskTabs } from "@/app/tasks/task-tabs";
import { readDuty, readDutyNow } from "@/lib/queries/duty";
import { readPeople } from "@/lib/queries/people";
import { readSession } from "@/lib/queries/session";
import { dutyQuery } from "@/lib/schemas/duty";
import { addDays, dateIn, instantOf, localDate } from "@/lib/units/time";
import { minutesOf, peopleOfDay } from "./coverage";
import { CoverageList } from "./coverage-list";
import { DayChoice } from "./day-choice";
import { DutyTable } from "./duty-table.client";
import { DutyTools } from "./duty-tools.client";

export const metadata: Metadata = { title: "On duty" };

/** Who is there, in which role and until when; what a gap leaves open is said, not left to be seen. */
export default async function DutyPage({ searchParams }: { searchParams: Promise<{ date?: string | string[] }> }) {
  const actor = await requirePerson("/tasks/duty");
  const given = (await searchParams).date;
  const asked = dutyQuery.safeParse({ date: Array.isArray(given) ? given[0] : given });
  const { facility, at } = await readSession(actor);
  const today = dateIn(facility.timeZone, instantOf(at));
  const date = localDate((asked.success ? asked.data.date : undefined) ?? today);
  const [day, before, now, people] = await Promise.all([
    readDuty(actor, { date }),
    readDuty(actor, { date: addDays(date, -1) }),
    readDutyNow(actor),
    readPeople(actor),
  ]);
  const there = peopleOfDay(day, before);
  const canBe = people.people.filter(({ active, roles }) => active && roles.length > 0);
  return (
    <Page>
      <TaskTabs />
      <PageHeading
        title="On duty"
        sub={`${longDayText(date)}, ${facility.name}`}
        actions={<DutyTools date={date} people={canBe} />}
      />
      {asked.success ? null : (
        <Notice tone="heed" title="That date cannot be right">
          <p>A date looks like 2026-11-25. Today is shown instead.</p>
        </Notice>
      )}
      <DutyLine duty={now} now={at} zone={facility.timeZone} />
      <DayChoice date={date} today={today} />
      {there.length === 0 ? (
        <Notice tone="heed" title={`Nobody is on duty on ${longDayText(date)}, or no roster was entered`}>
          <p>Without a roster everybody who may do a task is offered for it, and nobody is named to be called.</p>
        </Notice>
      ) : (
        <>
          <DutyTable
            day={day}
            people={there}
            canBe={canBe}
            nowMinute={date === today ? minutesOf(clockText(at, facility.timeZone)) : null}
          />
          <CoverageList people={there} />
        </>
      )}
    </Page>
  );
}
