import type { FaultEvidence } from "@/lib/domain/evidence-records";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { minutesLater, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { type Quantity, quantity, valueIn } from "@/lib/units/quantity";
import { instantOf, later, MINUTE } from "@/lib/units/time";

const settings = {
  lookWithin: { default: quantity(60, "min") as Quantity, citation: "common practice, no source" },
};

/** A fault in words is work for whoever can look at it; the reporter alone says whether it stops the machine meanwhile. */
export const faultReported: Rule<typeof settings> = {
  id: "fault-reported",
  inBrief: "fault reported",
  what: "A fault reported in words is looked at within its time",
  severity: "due",
  citation: "common practice, no source",
  items: [],
  settings,
  allowedBy: [],
  judge: (context, { lookWithin }) =>
    (context.evidence.workstation?.faults ?? [])
      .filter(({ lookedAt }) => !lookedAt)
      .map((fault) => finding(fault, context, lookWithin)),
  examples: [
    { name: "looked at", given: (ready) => reported(ready, { wouldNotUse: true, lookedAt: true }), expect: "holds" },
    { name: "reported", given: (ready) => reported(ready, {}), expect: "due" },
    {
      name: "reported by one who would not use it",
      given: (ready) => reported(ready, { wouldNotUse: true }),
      expect: "stops",
    },
    {
      name: "reported 61 minutes ago",
      given: (ready) => reported(ready, { reportedAt: minutesLater(ready, -61) }),
      expect: "due",
    },
  ],
};

function finding(fault: FaultEvidence, context: RuleContext, lookWithin: Quantity): FindingDraft {
  const { text, wouldNotUse } = fault;
  const late = isLate(fault, context, lookWithin) ? `, not looked at within ${said(lookWithin)}` : "";
  return {
    subject: workstationSubject(context),
    severity: wouldNotUse ? "stops" : "due",
    text: wouldNotUse ? `Fault reported, would not use it${late}: ${text}` : `Fault reported${late}: ${text}`,
    measured: fault.reportedAt ?? null,
    limit: lookWithin,
  };
}

function isLate({ reportedAt }: FaultEvidence, context: RuleContext, lookWithin: Quantity): boolean {
  if (!reportedAt) return false;
  return context.hasCome(later(instantOf(reportedAt), (valueIn(lookWithin, "min") ?? 0) * MINUTE));
}

function reported(ready: Parameters<typeof withWorkstation>[0], fault: Partial<FaultEvidence>) {
  return withWorkstation(ready, () => ({
    faults: [{ id: "fault-1", text: "screen flickers", wouldNotUse: false, lookedAt: false, ...fault }],
  }));
}
