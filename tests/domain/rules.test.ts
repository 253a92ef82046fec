import { describe, expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { type Judgement, SEVERITIES } from "@/lib/domain/judgement";
import type { Rule, RuleExample } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { readyRoom } from "@/tests/support/ready-room";

/** What a rule said in a judgement, in the words of the examples. */
function concluded(rule: Rule, judgement: Judgement): RuleExample["expect"] {
  const severities = judgement.reasons.filter((reason) => reason.rule === rule.id).map(({ severity }) => severity);
  const worst = SEVERITIES.find((severity) => severities.includes(severity));
  if (worst) return worst;
  return judgement.owed.some(({ item }) => rule.items.includes(item)) ? "owed" : "holds";
}

describe.each(RULES.map((rule) => [rule.id, rule] as const))("rule %s", (_id, rule) => {
  it("has examples on both sides of its limit", () => {
    const expected = new Set(rule.examples.map(({ expect: outcome }) => outcome));
    expect(expected.has("holds"), "an example that holds").toBe(true);
    expect(
      [...expected].some((outcome) => outcome !== "holds"),
      "an example that does not",
    ).toBe(true);
  });

  it("cites where it comes from", () => {
    const citations = [
      rule.citation,
      ...Object.values(rule.settings).flatMap(({ citation, iso }) => [citation, ...(iso ? [iso.citation] : [])]),
    ];
    for (const citation of citations) expect(citation.trim()).not.toBe("");
  });

  it.each(rule.examples.map((example) => [example.name, example] as const))("%s", (_name, example) => {
    const judgement = judge(example.given(readyRoom(example.scheme ?? "US")));
    expect(concluded(rule, judgement)).toBe(example.expect);
  });
});

describe("the ready room of the examples", () => {
  it.each(["US", "ISO"] as const)("is ready on the %s scheme, with nothing to say", (scheme) => {
    const judgement = judge(readyRoom(scheme));
    expect(judgement.reasons).toEqual([]);
    expect(judgement.owed).toEqual([]);
    expect(judgement.state).toBe("ready");
    expect(judgement.readyForList).toBe(true);
  });
});
