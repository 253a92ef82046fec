import type { Evidence } from "@/lib/domain/evidence";
import type { PastFailure } from "@/lib/domain/evidence-records";
import { itemOf } from "@/lib/domain/items";
import type { Rule, RuleContext } from "@/lib/domain/rule";
import { minutesLater, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { listed, lowerFirst, said } from "@/lib/domain/wording";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { DAY, type Instant, instantOf, later } from "@/lib/units/time";

const citation = "common practice, no source";
const settings = {
  failures: { default: 3, citation },
  within: { default: quantity(7, "d") as Quantity, citation },
};

/**
 * One failure that passes at the second try is a morning's work; three in a week tell of a machine that an engineer should open.
 * What failed several times in one check is one failure. What the room has failed by says nothing about the workstation.
 */
export const repeatedFailures: Rule<typeof settings> = {
  id: "repeated-failures",
  inBrief: "fails again and again",
  what: "A workstation that failed three times in seven days is looked at by biomedical engineering",
  severity: "due",
  citation,
  items: [],
  settings,
  allowedBy: [],
  judge: (context, { failures, within }) => {
    const recent: PastFailure[] = [];
    for (const failure of failuresOf(context)) {
      const ends = later(instantOf(failure.at), Math.round(within.value * DAY));
      if (context.now < ends) {
        context.changesAt(ends);
        recent.push(failure);
      }
    }
    if (recent.length < failures) return [];
    const names = [...new Set(recent.map(({ item }) => lowerFirst(itemOf(item).name)))].sort();
    const text = `Failed ${recent.length} times in ${said(within)}: ${listed(names)}`;
    return [
      { subject: workstationSubject(context), text, measured: String(recent.length), limit: `under ${failures}` },
    ];
  },
  examples: [
    { name: "two failures in seven days", given: (ready) => failedBefore(ready, [1, 3]), expect: "holds" },
    { name: "three failures in seven days", given: (ready) => failedBefore(ready, [1, 3, 6]), expect: "due" },
    { name: "the third one eight days ago", given: (ready) => failedBefore(ready, [1, 3, 8]), expect: "holds" },
  ],
};

const NONE: readonly PastFailure[] = [];

/** Each item and subject once a check day, by its last failure of that day; what was taken back never failed. */
function failuresOf(context: RuleContext): readonly PastFailure[] {
  const { observations, workstation } = context.evidence;
  if (workstation === null) return NONE;
  const seen: PastFailure[] = [...(workstation.recentFailures ?? NONE)];
  for (const { verdict, item, subject, observedAt } of observations) {
    if (verdict === "fail") seen.push({ item, subject, at: observedAt });
  }
  if (seen.length === 0) return NONE;
  const takenBack = new Set(observations.flatMap(({ supersedes }) => supersedes ?? []));
  const gone = observations.filter(({ id }) => takenBack.has(id));
  const isGone = ({ item, at }: PastFailure) => gone.some((one) => one.item === item && one.observedAt === at);
  return oncePerDay(
    seen.filter((one) => itemOf(one.item).about === "workstation" && !isGone(one)),
    (at) => context.checkDay(at).date,
  );
}

function oncePerDay(failures: readonly PastFailure[], dayOf: (at: Instant) => string): PastFailure[] {
  const last = new Map<string, PastFailure>();
  for (const one of failures) {
    const at = instantOf(one.at);
    const key = `${dayOf(at)} ${one.item} ${one.subject.kind} ${one.subject.id}`;
    const known = last.get(key);
    if (known === undefined || instantOf(known.at) < at) last.set(key, one);
  }
  return [...last.values()];
}

const failedBefore = (ready: Evidence, days: readonly number[]): Evidence =>
  withWorkstation(ready, ({ id }) => ({
    recentFailures: days.map((day) => ({
      item: "breathing-leak",
      subject: { kind: "workstation", id },
      at: minutesLater(ready, -day * 1440),
    })),
  }));
