import type { Rule } from "@/lib/domain/rule";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";

/** A fault in words is work for whoever can look at it; the reporter alone says whether it stops the machine meanwhile. */
export const faultReported: Rule = {
  id: "fault-reported",
  what: "A fault reported in words is looked at",
  severity: "due",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) =>
    (context.evidence.workstation?.faults ?? [])
      .filter(({ lookedAt }) => !lookedAt)
      .map(({ text, wouldNotUse }) => ({
        subject: workstationSubject(context),
        severity: wouldNotUse ? "stops" : "due",
        text: wouldNotUse ? `Fault reported, would not use it: ${text}` : `Fault reported: ${text}`,
      })),
  examples: [
    { name: "looked at", given: (ready) => reported(ready, true, true), expect: "holds" },
    { name: "reported", given: (ready) => reported(ready, false, false), expect: "due" },
    { name: "reported by one who would not use it", given: (ready) => reported(ready, true, false), expect: "stops" },
  ],
};

function reported(ready: Parameters<typeof withWorkstation>[0], wouldNotUse: boolean, lookedAt: boolean) {
  return withWorkstation(ready, () => ({
    faults: [{ id: "fault-1", text: "screen flickers", wouldNotUse, lookedAt }],
  }));
}
