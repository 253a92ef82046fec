import type { ServiceDue } from "@/lib/domain/evidence-records";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { endOf, startOf } from "@/lib/domain/rules/dates";
import { withValues, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { saidDate } from "@/lib/domain/wording";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { addDays, dateIn, instantOf, timestampOf } from "@/lib/units/time";

const settings = {
  /** Days past the end of the window at which it stops; zero is off. */
  stopsAfter: { default: quantity(0, "d") as Quantity, citation: "off; a site may set a day (no source)" },
};

/**
 * Service in its window is work; past its window the workstation runs only with the word of two people: the one who knows the
 * machine and the one who answers for the programme. Windows come from the service plan, in the facility's own days.
 */
export const serviceLate: Rule<typeof settings> = {
  id: "service-late",
  inBrief: "service late",
  what: "Service is done inside its window; past it use is allowed by biomedical engineer and manager together",
  severity: "limits",
  citation:
    "Service plan of the department; window after facility-engineering practice on completion of planned work (secondary)",
  items: [],
  settings,
  allowedBy: ["biomedical-engineer", "manager"],
  allowedTogether: true,
  use: {
    first: "Biomedical engineer looks over the workstation and its last service record.",
    differently: "Nothing; the workstation is used first where a spare stands near.",
    longest: "10-days",
  },
  judge: (context, { stopsAfter }) =>
    (context.evidence.workstation?.serviceDue ?? []).flatMap((service) => judgeService(service, context, stopsAfter)),
  examples: [
    { name: "the last day of the window", given: (ready) => dueWith(ready, -10, 0), expect: "due" },
    { name: "the day after the window", given: (ready) => dueWith(ready, -11, -1), expect: "limits" },
    { name: "before the window opens", given: (ready) => dueWith(ready, 1, 20), expect: "holds" },
    { name: "the day the window opens", given: (ready) => dueWith(ready, 0, 20), expect: "due" },
    {
      name: "30 days late, where the site stops after 30",
      given: (ready) => withValues(dueWith(ready, -60, -30), "service-late", { stopsAfter: quantity(30, "d") }),
      expect: "limits",
    },
    {
      name: "31 days late, where the site stops after 30",
      given: (ready) => withValues(dueWith(ready, -60, -31), "service-late", { stopsAfter: quantity(30, "d") }),
      expect: "stops",
    },
  ],
};

/** A ready room whose service window runs from so many to so many days after its own day. */
function dueWith(ready: Parameters<typeof withWorkstation>[0], from: number, to: number) {
  const today = dateIn(ready.facility.timeZone, instantOf(ready.now));
  const window = { from: addDays(today, from), to: addDays(today, to) };
  return withWorkstation(ready, () => ({
    serviceDue: [{ plan: "annual service", due: addDays(today, from), window }],
  }));
}

function judgeService(service: ServiceDue, context: RuleContext, stopsAfter: Quantity): FindingDraft[] {
  const { timeZone } = context.evidence.facility;
  const { plan, due, window } = service;
  const opens = startOf(timeZone, window.from);
  const closes = endOf(timeZone, window.to);
  if (!context.hasCome(opens)) return [];
  const subject = workstationSubject(context);
  const measured = `due ${saidDate(due)}`;
  const limit = `window to ${saidDate(window.to)}`;
  if (!context.hasCome(closes)) {
    return [{ subject, severity: "due", text: `Service ${measured}: ${plan} (${limit})`, measured, limit }];
  }
  const late = {
    subject,
    text: `Service late: ${plan}, window ended ${saidDate(window.to)}`,
    measured,
    limit,
    since: timestampOf(closes),
  };
  const stops = stopsAfter.value > 0 ? endOf(timeZone, addDays(window.to, stopsAfter.value)) : null;
  if (stops !== null && context.hasCome(stops)) return [{ ...late, severity: "stops" }];
  return [{ ...late, takesAway: ["service-late"] }];
}
