import type { Rule } from "@/lib/domain/rule";
import { answered, bad, chosen, good, unanswered } from "@/lib/domain/rules/examples";
import { failures, passingOf } from "@/lib/domain/rules/failing";

const DRIED = "dried";

/**
 * A sticking or missing disc makes the patient breathe the same gas again. One that was only wet and moves freely since it was
 * dried is worth a word: it will be wet again.
 */
export const valves: Rule = {
  id: "valves",
  inBrief: "one-way valves",
  what: "Both one-way valves are there and move freely",
  severity: "stops",
  citation: "FDA anesthesia apparatus checkout 1993, step 12; ASA pre-anesthesia checkout 2008, item 13 (from memory)",
  items: ["valves"],
  settings: {},
  allowedBy: [],
  assess: (answer) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    return answer.kind === "choice" && answer.choice === DRIED ? "remark" : "uncounted";
  },
  judge: (context) => [
    ...failures(context, "valves", "One-way valve sticks or is missing"),
    ...passingOf(context, "valves")
      .filter(({ observation: { answer } }) => answer.kind === "choice" && answer.choice === DRIED)
      .map(({ subject }) => ({
        subject,
        severity: "note" as const,
        text: "One-way valve was wet, dried and moves freely",
      })),
  ],
  examples: [
    { name: "both move freely", given: (ready) => answered(ready, "valves", good), expect: "holds" },
    { name: "one sticks or is missing", given: (ready) => answered(ready, "valves", bad), expect: "stops" },
    { name: "wet, and dried", given: (ready) => answered(ready, "valves", chosen(DRIED)), expect: "note" },
    { name: "not looked at", given: (ready) => unanswered(ready, "valves"), expect: "owed" },
  ],
};
