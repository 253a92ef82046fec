import type { Rule } from "@/lib/domain/rule";
import { answered, bad, chosen, good } from "@/lib/domain/rules/examples";
import { failures, passingOf } from "@/lib/domain/rules/failing";

const CAUTION = "caution";

/** The maker's own test. It may pass with a caution: the machine may be used, and somebody reads what it warns of. */
export const selfTest: Rule = {
  id: "self-test",
  inBrief: "self-test",
  what: "The workstation's self-test passes; a caution it gives is looked into",
  severity: "stops",
  citation:
    "ASA pre-anesthesia checkout 2008, design guidelines: what an automated test covers varies by model; common practice",
  items: ["self-test"],
  settings: {},
  allowedBy: [],
  assess: (answer) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    return answer.kind === "choice" && answer.choice === CAUTION ? "remark" : "uncounted";
  },
  judge: (context) => [
    ...failures(context, "self-test", "Self-test failed"),
    ...passingOf(context, "self-test")
      .filter(
        ({ observation: { answer, makersVerdict } }) =>
          makersVerdict === "noted" || (answer.kind === "choice" && answer.choice === CAUTION),
      )
      .map(({ subject }) => ({
        subject,
        severity: "due" as const,
        text: "Self-test passed with a caution: read what it says",
      })),
  ],
  examples: [
    { name: "passed", given: (ready) => answered(ready, "self-test", good), expect: "holds" },
    { name: "failed", given: (ready) => answered(ready, "self-test", bad), expect: "stops" },
    { name: "passed with a caution", given: (ready) => answered(ready, "self-test", chosen(CAUTION)), expect: "due" },
    {
      name: "passed, and the maker's own verdict is a caution",
      given: (ready) => {
        const seen = answered(ready, "self-test", good);
        return {
          ...seen,
          observations: seen.observations.map((one) =>
            one.item === "self-test" ? { ...one, makersVerdict: "noted" as const } : one,
          ),
        };
      },
      expect: "due",
    },
  ],
};
