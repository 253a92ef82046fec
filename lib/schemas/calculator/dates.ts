import { z } from "zod";
import { QUARTERLY_READINGS } from "@/lib/calculations/quarterly-window";
import { date, number, oneOf } from "./inputs";

const lastDone = date({ title: "Last done", description: "The day on which the work was last done" });

export const serviceDue = z
  .strictObject({
    lastDone,
    intervalMonths: number({ title: "Interval", unit: "months", description: "Interval in whole months" }),
    toleranceDays: number({
      title: "Tolerance",
      unit: "days",
      description: "Days either way that still count as on time; 0 if absent",
    }).default(0),
    basis: oneOf(["last-done", "anchor"], {
      title: "Counted from",
      description: "last-done if absent: from the work itself; anchor: by a fixed schedule",
    }).default("last-done"),
    anchor: date({
      title: "Anchor",
      description: "A date of the fixed schedule; needed by the basis anchor",
      when: { basis: ["anchor"] },
    }).optional(),
  })
  .superRefine(({ basis, anchor }, context) => {
    if (basis === "anchor" && anchor === undefined)
      context.addIssue({ code: "custom", path: ["anchor"], message: "missing; the basis anchor needs a date" });
  });

export const quarterlyWindow = z.strictObject({
  lastDone,
  reading: oneOf(QUARTERLY_READINGS, {
    title: "Read as",
    description: "Which of the three readings of a quarterly interval the site goes by",
  }),
});

const calendar = {
  federalHolidays: z
    .boolean()
    .meta({ title: "US federal holidays", description: "Leave out US federal holidays; true if absent" })
    .default(true),
  holidays: z
    .array(date({ title: "Holiday", description: "A further day on which nobody works" }))
    .max(1_000)
    .meta({ title: "Other holidays", description: "Further days on which nobody works; none if absent" })
    .default([]),
};

export const workDays = z.strictObject({
  start: date({ title: "From", description: "The day from which is counted; not counted itself" }),
  days: number({ title: "Work days", unit: "days", description: "Work days, Monday to Friday" }),
  ...calendar,
});

export const reportDue = z.strictObject({
  awareAt: z.iso.datetime({ offset: true, error: "must be an instant such as 2026-11-25T06:10:00Z" }).meta({
    title: "Aware at",
    description: "The instant at which the staff became aware of the event",
  }),
  zone: z
    .string()
    .max(60)
    .refine(isZone, "must be an IANA time zone such as America/Chicago")
    .meta({ title: "Time zone", description: "IANA time zone of the facility, such as America/Chicago" }),
  ...calendar,
});

function isZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat("en", { timeZone: name }) !== null;
  } catch {
    return false;
  }
}
