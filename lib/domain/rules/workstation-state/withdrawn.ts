import { isHere } from "@/lib/domain/judge-here";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { itemlessName } from "@/lib/domain/wording";

/**
 * Biomedical engineering owns what it has quarantined, sequestered or opened. A quarantine of the whole machine takes it out of
 * service; of one part, only what that part does: a vaporizer's agent and a cylinder's reserve are judged by their own rules.
 */
export const withdrawn: Rule = {
  id: "withdrawn",
  inBrief: "taken out of use",
  what: "A workstation in quarantine, sequestered or with its service open is out of service",
  severity: "out",
  citation:
    "Safe Medical Devices Act practice on sequestering equipment after an incident (from memory); common practice",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const { workstation } = context.evidence;
    if (workstation === null) return [];
    const subject = workstationSubject(context);
    const whole: FindingDraft[] = [];
    if (workstation.sequestered) whole.push({ subject, text: "Sequestered after an incident" });
    if (workstation.serviceOpen) whole.push({ subject, text: "Service open" });
    return [...whole, ...quarantined(context)];
  },
  examples: [
    { name: "in use as usual", given: (ready) => ready, expect: "holds" },
    { name: "sequestered", given: (ready) => withWorkstation(ready, () => ({ sequestered: true })), expect: "out" },
    { name: "service open", given: (ready) => withWorkstation(ready, () => ({ serviceOpen: true })), expect: "out" },
    {
      name: "quarantined",
      given: (ready) =>
        withWorkstation(ready, ({ id }) => ({
          quarantine: [{ subject: { kind: "workstation", id }, since: ready.now }],
        })),
      expect: "out",
    },
    {
      name: "its oxygen sensor quarantined",
      given: (ready) =>
        withWorkstation(ready, ({ fitted }) => ({
          quarantine: [{ subject: { kind: "oxygen-sensor", id: fitted.oxygenSensor?.id ?? "" }, since: ready.now }],
        })),
      expect: "stops",
    },
    {
      name: "its auxiliary flowmeter alone quarantined",
      given: (ready) =>
        withWorkstation(ready, ({ id }) => ({
          quarantine: [{ subject: { kind: "workstation", id }, item: "auxiliary-oxygen", since: ready.now }],
        })),
      expect: "holds",
    },
    {
      name: "one vaporizer quarantined",
      given: (ready) =>
        withWorkstation(ready, ({ fitted }) => ({
          quarantine: [{ subject: { kind: "vaporizer", id: fitted.vaporizers[0]?.id ?? "" }, since: ready.now }],
        })),
      expect: "holds",
    },
  ],
};

function quarantined(context: RuleContext): FindingDraft[] {
  const { workstation } = context.evidence;
  return (workstation?.quarantine ?? []).flatMap(({ subject, item, since }): FindingDraft[] => {
    // What was taken off no longer speaks.
    if (!isHere(subject, context.evidence)) return [];
    // One function alone is judged by the rule of its item.
    if (item || subject.kind === "vaporizer" || subject.kind === "cylinder") return [];
    if (subject.kind === "workstation") return [{ subject, text: "Quarantined", since }];
    const text = `${itemlessName(subject, workstation)} quarantined`;
    if (subject.kind === "oxygen-sensor" && context.portable("oxygen-analyzer"))
      return [{ subject, severity: "due", text: `${text}, a free-standing analyzer is in the room`, since }];
    return [{ subject, severity: "stops", text, since }];
  });
}
