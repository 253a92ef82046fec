import type { RecallEvidence } from "@/lib/domain/evidence-records";
import type { FindingDraft, Rule } from "@/lib/domain/rule";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import type { RecallDecision } from "@/lib/domain/vocabulary";

/** A recall that nobody has assessed is work; only an engineer's decision to pull the machine stops it, at the next case or now. */
export const recallOpen: Rule = {
  id: "recall-open",
  inBrief: "recall open",
  what: "A recall that touches the workstation is assessed, and what was decided is done",
  severity: "due",
  citation: "common practice, no source; recalls are responded to by accreditation practice (secondary)",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const recalls = context.evidence.workstation?.recalls ?? [];
    return recalls.flatMap((recall) => {
      const said = decided(recall);
      return said === null ? [] : [{ subject: workstationSubject(context), ...said }];
    });
  },
  examples: [
    { name: "not affected", given: (ready) => recalled(ready, "not-affected"), expect: "holds" },
    { name: "kept in use", given: (ready) => recalled(ready, "keep"), expect: "holds" },
    { name: "kept in use on a condition", given: (ready) => recalled(ready, "keep-with-condition"), expect: "note" },
    { name: "not assessed", given: (ready) => recalled(ready, "not-assessed"), expect: "due" },
    { name: "pulled at the next case", given: (ready) => recalled(ready, "pull-at-next-case"), expect: "stops" },
    { name: "pulled now", given: (ready) => recalled(ready, "pull-now"), expect: "stops" },
  ],
};

function decided({ id, decision, condition }: RecallEvidence): Omit<FindingDraft, "subject"> | null {
  switch (decision) {
    case "not-affected":
    case "keep":
      return null;
    case "keep-with-condition":
      return {
        severity: "note",
        text: `Recall ${id}, in use on a condition: ${condition ?? "ask biomedical engineering"}`,
      };
    case "not-assessed":
      return { text: `Recall ${id}: not assessed yet` };
    case "pull-at-next-case":
      return { severity: "stops", text: `Recall ${id}: pulled, no further case` };
    case "pull-now":
      return { severity: "stops", text: `Recall ${id}: pull it now`, supplyFailure: true };
  }
}

const recalled = (ready: Parameters<typeof withWorkstation>[0], decision: RecallDecision) =>
  withWorkstation(ready, () => ({ recalls: [{ id: "R-1", decision, condition: "alarm volume at most" }] }));
