import type { EvidenceEvent } from "@/lib/domain/evidence";
import type { Owed } from "@/lib/domain/judgement";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { answered, cylinderOf, gauge, minutesLater } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import type { EventKind } from "@/lib/domain/vocabulary";
import { itemsInWords } from "@/lib/domain/wording";

const EVENT_WORDS: Readonly<Record<EventKind, string>> = {
  "vaporizer-fitted": "vaporizer fitted",
  "vaporizer-removed": "vaporizer removed",
  "absorbent-changed": "absorbent changed",
  "cylinder-swapped": "cylinder swapped",
  "sensor-replaced": "oxygen sensor replaced",
  "moved-in": "workstation moved in",
  refilled: "vaporizer filled",
  "circuit-changed": "circuit changed",
  serviced: "serviced",
  "pipeline-event": "pipeline event",
  "power-event": "power failed",
  "emergency-use": "emergency use",
};

/** What an event has made due again, and readings that proved nothing: exactly those items, and no whole check. */
export const recheckOwed: Rule = {
  id: "recheck-owed",
  inBrief: "recheck owed",
  what: "What an event made due again is looked at again",
  severity: "owed",
  citation:
    "ASA pre-anesthesia checkout 2008, item 8: repeated when a vaporizer is changed (from memory); the rest common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  always: true,
  judge: (context) => {
    const owed = context.owed();
    const again = byKind(
      owed.filter(({ because }) => because === "recheck"),
      context,
    );
    const shut = owed.filter(({ because }) => because === "read-shut");
    return [...again]
      .sort(([left], [right]) => (left < right ? -1 : 1))
      .map(([kind, items]) => finding(`Recheck, ${EVENT_WORDS[kind]}`, items, context))
      .concat(shut.length === 0 ? [] : [finding("Read again with the valve open", shut, context)]);
  },
  examples: [
    { name: "nothing happened since the check", given: (ready) => ready, expect: "holds" },
    {
      name: "the vaporizer was changed after the check",
      given: (ready) => {
        const id = ready.workstation?.fitted.vaporizers[0]?.id ?? "";
        const event: EvidenceEvent = {
          id: "example-event",
          kind: "vaporizer-fitted",
          subject: { kind: "vaporizer", id },
          at: minutesLater(ready, -1),
          zone: null,
        };
        return { ...ready, events: [...ready.events, event] };
      },
      expect: "owed",
    },
    {
      name: "a gauge read with the valve shut",
      given: (ready) =>
        answered(ready, "cylinder-gauge", gauge(1900, "psi", { open: false }), cylinderOf(ready, "oxygen")),
      expect: "owed",
    },
  ],
};

/** Two swaps of the same kind are one reason with all their items. */
function byKind(owed: readonly Owed[], context: RuleContext): ReadonlyMap<EventKind, readonly Owed[]> {
  const kinds = new Map<EventKind, Owed[]>();
  for (const one of owed) {
    const kind = (one.event === null ? null : context.event(one.event))?.kind ?? "serviced";
    kinds.set(kind, [...(kinds.get(kind) ?? []), one]);
  }
  return kinds;
}

function finding(because: string, owed: readonly Owed[], context: RuleContext): FindingDraft {
  return {
    subject: workstationSubject(context),
    text: `${because}: ${itemsInWords(owed, context.evidence.workstation)}`,
    measured: `${owed.length} owed`,
    limit: null,
    items: [...new Set(owed.map(({ item }) => item))],
  };
}
