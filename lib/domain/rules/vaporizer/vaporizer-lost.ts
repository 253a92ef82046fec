import type { Rule, RuleContext } from "@/lib/domain/rule";
import { about, answered, bad, chosen, withWorkstation } from "@/lib/domain/rules/examples";
import { type LostVaporizer, lostVaporizers } from "@/lib/domain/rules/lost-vaporizers";
import { lowerFirst, subjectName } from "@/lib/domain/wording";
import { localDate } from "@/lib/units/time";

/** One vaporizer lost takes its agent away; what is left can still be used. */
export const vaporizerLost: Rule = {
  id: "vaporizer-lost",
  inBrief: "vaporizer lost",
  what: "Which agents can be given: a vaporizer that is unseated, open, empty, quarantined or past its calibration cannot",
  severity: "limits",
  citation: "common practice, no source; interlock and seating from ISO 80601-2-13 (from memory)",
  items: ["vaporizer-seated", "filler-closed"],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Turn it off, lock it or take it off its mount, and mark it.",
    differently: "Give another agent; not this one.",
    longest: "10-days",
  },
  judge: (context) => {
    const lost = lostVaporizers(context);
    return lost.map((one) => finding(one, lost, context));
  },
  examples: [
    {
      name: "one of two not seated",
      given: (ready) => answered(ready, "vaporizer-seated", bad, about(firstOf(ready.workstation?.fitted.vaporizers))),
      expect: "limits",
    },
    {
      name: "one filler open",
      given: (ready) => answered(ready, "filler-closed", bad, about(firstOf(ready.workstation?.fitted.vaporizers))),
      expect: "limits",
    },
    {
      name: "one of two of the same agent not seated",
      given: (ready) =>
        withWorkstation(
          answered(ready, "vaporizer-seated", bad, about(firstOf(ready.workstation?.fitted.vaporizers))),
          ({ fitted }) => ({
            fitted: { ...fitted, vaporizers: fitted.vaporizers.map((one) => ({ ...one, agent: "sevoflurane" })) },
          }),
        ),
      expect: "due",
    },
    { name: "empty", given: (ready) => answered(ready, "vaporizer-fill", chosen("empty")), expect: "limits" },
    { name: "a quarter full", given: (ready) => answered(ready, "vaporizer-fill", chosen("quarter")), expect: "holds" },
    { name: "the last day of its calibration", given: (ready) => calibratedTo(ready, "2026-03-03"), expect: "holds" },
    { name: "the day after its calibration", given: (ready) => calibratedTo(ready, "2026-03-02"), expect: "limits" },
  ],
};

/** A limit names the agent that is gone; where another vaporizer of the same agent can be used, nothing is gone and it is work. */
function finding(
  { subject, vaporizer, why, items, since }: LostVaporizer,
  lost: readonly LostVaporizer[],
  context: RuleContext,
) {
  const { workstation } = context.evidence;
  const { agent } = vaporizer;
  const another = workstation?.fitted.vaporizers.some(
    (one) => one.agent === agent && !lost.some(({ vaporizer: gone }) => gone.id === one.id),
  );
  const name = lowerFirst(subjectName(subject, workstation));
  const draft = { subject, items, since };
  if (another) return { ...draft, severity: "due" as const, text: `Put right ${name}: ${why}` };
  return { ...draft, text: `No ${name}: ${why}`, takesAway: [`no-${agent}` as const] };
}

const firstOf = (parts: readonly { readonly id: string }[] | undefined): string => parts?.[0]?.id ?? "";

/** The ready room stands at 3 March 2026. */
function calibratedTo(ready: Parameters<typeof withWorkstation>[0], date: string) {
  const calibration = { due: localDate(date), windowTo: localDate(date) };
  return withWorkstation(ready, ({ fitted }) => ({
    fitted: { ...fitted, vaporizers: fitted.vaporizers.map((one) => ({ ...one, calibration })) },
  }));
}
