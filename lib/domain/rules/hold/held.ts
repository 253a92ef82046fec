import type { Rule } from "@/lib/domain/rule";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";

/** Anybody who checks may say "do not use, looking at it", and it is believed until it is lifted with a reason. */
export const held: Rule = {
  id: "held",
  inBrief: "held",
  what: "A workstation that somebody holds is not used until the hold is lifted",
  severity: "stops",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) =>
    (context.evidence.workstation?.holds ?? []).map(({ reason, since }) => ({
      subject: workstationSubject(context),
      text: `Held: ${reason}`,
      since,
    })),
  examples: [
    { name: "no hold", given: (ready) => ready, expect: "holds" },
    {
      name: "held",
      given: (ready) =>
        withWorkstation(ready, () => ({
          holds: [{ id: "hold-1", by: "example", role: "technician", reason: "smell of burning", since: ready.now }],
        })),
      expect: "stops",
    },
  ],
};
