import type { Rule } from "@/lib/domain/rule";
import { about, answered, bad, good } from "@/lib/domain/rules/examples";
import { failingOf, noted } from "@/lib/domain/rules/failing";
import { lowerFirst, subjectName } from "@/lib/domain/wording";

/** A wrong gas at the right pressure kills, and no gauge shows it. Under a running case it is acted upon at once. */
export const pipelineIdentity: Rule = {
  id: "pipeline-identity",
  inBrief: "gas identity to prove",
  what: "After work on the pipes, what comes out of the wall is proved to be its gas",
  severity: "stops",
  citation: "common practice, no source; the hazard of crossed pipelines in Caplan et al. 1997, Anesthesiology 87:741",
  items: ["pipeline-identity"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) =>
    failingOf(context, "pipeline-identity").map(({ subject, observation: { answer, observedAt } }) => ({
      subject,
      text: `Wrong or unproved gas from the ${lowerFirst(subjectName(subject, context.evidence.workstation))}${noted(answer)}`,
      supplyFailure: true,
      since: observedAt,
    })),
  examples: [
    {
      name: "the right gas",
      given: (ready) => answered(ready, "pipeline-identity", good, about("oxygen")),
      expect: "holds",
    },
    {
      name: "another gas",
      given: (ready) => answered(ready, "pipeline-identity", bad, about("oxygen")),
      expect: "stops",
    },
  ],
};
