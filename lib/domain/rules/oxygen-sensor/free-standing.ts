import type { FindingDraft, RuleContext } from "@/lib/domain/rule";

/** With a free-standing analyzer in the circuit the workstation's own sensor is only work. */
export function unlessAnalyzer(context: RuleContext, draft: FindingDraft): FindingDraft {
  if (!context.portable("oxygen-analyzer")) return draft;
  return { ...draft, severity: "due", text: `${draft.text}; a free-standing analyzer is in the room` };
}
