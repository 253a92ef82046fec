import type { Rule } from "@/lib/domain/rule";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";

/** A recall that nobody has assessed is work; only an engineer's decision to stop using the machine stops it. */
export const recallOpen: Rule = {
  id: "recall-open",
  what: "A recall that touches the workstation is assessed",
  severity: "due",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) =>
    (context.evidence.workstation?.recalls ?? []).flatMap(({ id, decision }) => {
      if (decision === "not-affected" || decision === "keep-using") return [];
      const subject = workstationSubject(context);
      if (decision === "stop-using") return [{ subject, severity: "stops", text: `Recall ${id}: stop using` }];
      return [{ subject, text: `Recall ${id}: not assessed yet` }];
    }),
  examples: [
    { name: "not affected", given: (ready) => recalled(ready, "not-affected"), expect: "holds" },
    { name: "not assessed", given: (ready) => recalled(ready, "not-assessed"), expect: "due" },
    { name: "stop using", given: (ready) => recalled(ready, "stop-using"), expect: "stops" },
  ],
};

const recalled = (ready: Parameters<typeof withWorkstation>[0], decision: string) =>
  withWorkstation(ready, () => ({ recalls: [{ id: "R-1", decision }] }));
