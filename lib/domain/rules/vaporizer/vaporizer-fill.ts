import type { Answer } from "@/lib/domain/answer";
import { FILL_SHARES } from "@/lib/domain/choices";
import type { Rule } from "@/lib/domain/rule";
import { answered, chosen, unanswered } from "@/lib/domain/rules/examples";
import { passingOf } from "@/lib/domain/rules/failing";
import { numeral, subjectName } from "@/lib/domain/wording";

const settings = {
  dueUnder: { default: 1 / 2, citation: "common practice, no source" },
};

/** A low vaporizer is filled before the list rather than in the middle of a case. An empty one is lost until it is filled. */
export const vaporizerFill: Rule<typeof settings> = {
  id: "vaporizer-fill",
  inBrief: "vaporizer to fill",
  what: "A vaporizer under its mark at the start of the day is filled",
  severity: "due",
  citation: settings.dueUnder.citation,
  items: ["vaporizer-fill"],
  settings,
  allowedBy: [],
  assess: (answer, _about, { dueUnder }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const share = fillOf(answer);
    if (share === null) return "uncounted";
    if (share <= 0) return "fail";
    return share < dueUnder ? "remark" : "pass";
  },
  shows: () => null,
  judge: (context, { dueUnder }) =>
    passingOf(context, "vaporizer-fill").flatMap(({ subject, observation: { answer } }) => {
      const share = fillOf(answer);
      if (share === null || share >= dueUnder) return [];
      const found = `${numeral(share * 100)} %`;
      const limit = `${numeral(dueUnder * 100)} %`;
      const text = `Fill ${subjectName(subject, context.evidence.workstation).toLowerCase()}: ${found} full (mark ${limit})`;
      return [{ subject, text, measured: found, limit }];
    }),
  examples: [
    {
      name: "half full, the mark itself",
      given: (ready) => answered(ready, "vaporizer-fill", chosen("half")),
      expect: "holds",
    },
    { name: "a quarter full", given: (ready) => answered(ready, "vaporizer-fill", chosen("quarter")), expect: "due" },
    { name: "not looked at", given: (ready) => unanswered(ready, "vaporizer-fill"), expect: "owed" },
  ],
};

function fillOf(answer: Answer): number | null {
  if (answer.kind === "choice") return FILL_SHARES.get(answer.choice) ?? null;
  return answer.kind === "number" && answer.reading.unit === "%" ? answer.reading.value / 100 : null;
}
