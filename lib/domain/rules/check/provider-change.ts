import type { Check, Evidence } from "@/lib/domain/evidence";
import { latestSignature } from "@/lib/domain/judge-signatures";
import type { Rule, RuleContext } from "@/lib/domain/rule";
import { minutesLater } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { instantOf, timeIn } from "@/lib/units/time";

/** Who takes over in the middle of a list confirms what stands there. Whether that was done is told; it moves no state. */
export const providerChange: Rule = {
  id: "provider-change",
  inBrief: "provider changed",
  what: "At a change of provider the equipment is confirmed, or it is told that it was not",
  severity: "note",
  citation: "Association of Anaesthetists, Checking Anaesthetic Equipment 2012: confirmed at a change of anaesthetist",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const latest = latestChange(context);
    if (latest === null) return [];
    const { timeZone } = context.evidence.facility;
    const signature = latestSignature([latest], "confirmed") ?? latestSignature([latest], "performed");
    const text =
      signature === null
        ? `Change of provider at ${timeIn(timeZone, instantOf(latest.startedAt))}: not confirmed`
        : `Confirmed at the change of provider, ${timeIn(timeZone, instantOf(signature.at))}`;
    return [{ subject: workstationSubject(context), text, measured: signature?.at ?? latest.startedAt }];
  },
  examples: [
    { name: "no change of provider", given: (ready) => ready, expect: "holds" },
    { name: "changed and confirmed", given: (ready) => changed(ready, true), expect: "note" },
    { name: "changed and not confirmed", given: (ready) => changed(ready, false), expect: "note" },
  ],
};

/** The last one of this check day. */
function latestChange(context: RuleContext): Check | null {
  const here = context.evidence.workstation?.id ?? null;
  let latest: Check | null = null;
  for (const check of context.evidence.checks) {
    if (check.kind !== "provider-change" || (check.workstation ?? here) !== here) continue;
    const startedAt = instantOf(check.startedAt);
    const { to } = context.checkDay(startedAt);
    if (context.now >= to) continue;
    context.changesAt(to);
    if (latest === null || isLater(check, latest)) latest = check;
  }
  return latest;
}

const isLater = (left: Check, right: Check): boolean => {
  const difference = instantOf(left.startedAt) - instantOf(right.startedAt);
  return difference > 0 || (difference === 0 && left.id < right.id);
};

function changed(ready: Evidence, confirmed: boolean): Evidence {
  const at = minutesLater(ready, -2);
  const check: Check = {
    id: "check-change",
    procedure: null,
    kind: "provider-change",
    startedAt: at,
    startedBy: "example",
    signed: confirmed ? [{ by: "example", role: "provider", meaning: "confirmed", at }] : [],
  };
  return { ...ready, checks: [check, ...ready.checks] };
}
