import type { Rule } from "@/lib/domain/rule";
import { about, answered, bad, chosen, withWorkstation } from "@/lib/domain/rules/examples";
import { lostVaporizers } from "@/lib/domain/rules/lost-vaporizers";
import { lowerFirst, subjectName } from "@/lib/domain/wording";
import { localDate } from "@/lib/units/time";

/** One vaporizer lost takes its agent away; what is left can still be used. */
export const vaporizerLost: Rule = {
  id: "vaporizer-lost",
  what: "Which agents can be given: a vaporizer that is unseated, open, empty, quarantined or past its calibration cannot",
  severity: "limits",
  citation: "common practice, no source; interlock and seating from ISO 80601-2-13 (from memory)",
  items: ["vaporizer-seated", "filler-closed"],
  settings: {},
  allowedBy: ["charge-provider"],
  judge: (context) =>
    lostVaporizers(context).map(({ subject, why, items }) => ({
      subject,
      text: `No ${lowerFirst(subjectName(subject, context.evidence.workstation))}: ${why}`,
      items,
    })),
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
    { name: "empty", given: (ready) => answered(ready, "vaporizer-fill", chosen("empty")), expect: "limits" },
    { name: "a quarter full", given: (ready) => answered(ready, "vaporizer-fill", chosen("quarter")), expect: "holds" },
    { name: "the last day of its calibration", given: (ready) => calibratedTo(ready, "2026-03-03"), expect: "holds" },
    { name: "the day after its calibration", given: (ready) => calibratedTo(ready, "2026-03-02"), expect: "limits" },
  ],
};

const firstOf = (parts: readonly { readonly id: string }[] | undefined): string => parts?.[0]?.id ?? "";

/** The ready room stands at 3 March 2026. */
function calibratedTo(ready: Parameters<typeof withWorkstation>[0], date: string) {
  const calibration = { due: localDate(date), windowTo: localDate(date) };
  return withWorkstation(ready, ({ fitted }) => ({
    fitted: { ...fitted, vaporizers: fitted.vaporizers.map((one) => ({ ...one, calibration })) },
  }));
}
