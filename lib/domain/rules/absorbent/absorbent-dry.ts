import type { Evidence, FittedAbsorbent } from "@/lib/domain/evidence";
import { needsOf } from "@/lib/domain/needs";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import {
  answered,
  bad,
  chosen,
  good,
  minutesLater,
  reading,
  withRoom,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { failingOf, noted } from "@/lib/domain/rules/failing";
import { lostVaporizers } from "@/lib/domain/rules/lost-vaporizers";
import { itemlessName, said } from "@/lib/domain/wording";
import { isAbove, type Quantity, quantity } from "@/lib/units/quantity";
import { DAY, instant, instantOf, later } from "@/lib/units/time";

const principle = "APSF consensus 2005 on desiccated absorbent (from memory)";
const settings = {
  flowLeftOn: {
    default: quantity(60, "min") as Quantity,
    citation: `${principle}; the time is common practice, no source`,
  },
  idleFor: { default: quantity(3, "d") as Quantity, citation: `${principle}; the days are common practice, no source` },
};

const UNKNOWN = "unknown-time";

/**
 * Dry strong-base absorbent makes carbon monoxide and heat from volatile agents. It is suspected dry after gas flowed unattended for
 * longer than the limit or for an unknown time, or after the machine stood unused for days. Without a volatile agent nothing is made,
 * so a room that gives none may run; other absorbents only absorb less when they are dry.
 */
export const absorbentDry: Rule<typeof settings> = {
  id: "absorbent-dry",
  inBrief: "absorbent may be dry",
  what: "Strong-base absorbent that may have dried out is changed before a volatile agent is given",
  severity: "stops",
  citation: settings.flowLeftOn.citation,
  items: ["absorbent-dry"],
  settings,
  allowedBy: ["charge-provider"],
  use: {
    first: "Shut the vaporizers and mark them.",
    differently: "Intravenous anesthesia only, until all of the absorbent is changed.",
    longest: "this-list",
  },
  assess: (answer, _about, { flowLeftOn }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    if (answer.kind === "choice") return answer.choice === UNKNOWN ? "fail" : "uncounted";
    const minutes = answer.kind === "number" ? inMinutes(answer.reading) : null;
    const above = minutes === null ? null : isAbove(minutes, flowLeftOn);
    return above === null ? "uncounted" : above ? "fail" : "pass";
  },
  judge: (context, values) =>
    (context.evidence.workstation?.fitted.absorbent ?? []).flatMap((absorbent) => {
      const because =
        whyDry(absorbent, context, values.flowLeftOn) ??
        whyFoundFlowing(absorbent, context) ??
        whyIdle(absorbent, context, values.idleFor);
      return because === null ? [] : [suspected(absorbent, because, context)];
    }),
  examples: [
    {
      name: "no reason to think so",
      given: (ready) => answered(strongBase(ready), "absorbent-dry", good),
      expect: "holds",
    },
    { name: "suspected dry", given: (ready) => answered(strongBase(ready), "absorbent-dry", bad), expect: "stops" },
    {
      name: "gas flowed unattended for 60 min",
      given: (ready) => answered(strongBase(ready), "absorbent-dry", reading(60, "min")),
      expect: "holds",
    },
    {
      name: "gas flowed unattended for 61 min",
      given: (ready) => answered(strongBase(ready), "absorbent-dry", reading(61, "min")),
      expect: "stops",
    },
    {
      name: "gas flowed for an unknown time",
      given: (ready) => answered(strongBase(ready), "absorbent-dry", chosen(UNKNOWN)),
      expect: "stops",
    },
    {
      name: "found with gas flowing in the morning",
      given: (ready) => answered(strongBase(ready), "found-gas", bad),
      expect: "stops",
    },
    {
      name: "found with gas flowing, without a strong base",
      given: (ready) => answered(ready, "found-gas", bad),
      expect: "holds",
    },
    {
      name: "suspected dry, without a strong base",
      given: (ready) => answered(ready, "absorbent-dry", bad),
      expect: "due",
    },
    {
      name: "suspected dry, and the list needs no volatile agent",
      given: (ready) => {
        const dry = answered(strongBase(ready), "absorbent-dry", bad);
        return withRoom(dry, { list: ready.room?.list ? { ...ready.room.list, needs: ["sedation"] } : null });
      },
      expect: "limits",
    },
    { name: "unused for less than three days", given: (ready) => unusedSince(ready, 3 * 1440 - 1), expect: "holds" },
    { name: "unused for more than three days", given: (ready) => unusedSince(ready, 3 * 1440 + 1), expect: "stops" },
  ],
};

const subjectOf = ({ id }: FittedAbsorbent) => ({ kind: "absorbent", id }) as const;

interface Because {
  readonly text: string;
  readonly measured: Quantity | null;
  readonly limit: Quantity | null;
  readonly since: string;
}

function whyDry(absorbent: FittedAbsorbent, context: RuleContext, flowLeftOn: Quantity): Because | null {
  const standing = context.standing("absorbent-dry", subjectOf(absorbent));
  if (standing.state !== "failing") return null;
  const { answer, observedAt: since } = standing.observation;
  const limit = flowLeftOn;
  if (answer.kind === "number")
    return {
      text: `gas flowed unattended for ${said(answer.reading)} (at most ${said(limit)})`,
      measured: answer.reading,
      limit,
      since,
    };
  if (answer.kind === "choice") return { text: "gas flowed for an unknown time", measured: null, limit, since };
  return { text: `reported as such${noted(answer)}`, measured: null, limit: null, since };
}

/** Found with gas flowing in the morning: nobody knows since when. A later look at this charge, or another charge, settles it. */
function whyFoundFlowing(absorbent: FittedAbsorbent, context: RuleContext): Because | null {
  const [found] = failingOf(context, "found-gas");
  if (found === undefined || !absorbent.product.strongBase) return null;
  const since = found.observation.observedAt;
  const seen = instantOf(since);
  if (instantOf(absorbent.from) > seen) return null;
  const standing = context.standing("absorbent-dry", subjectOf(absorbent));
  if (standing.state === "passing" && instantOf(standing.observation.observedAt) > seen) return null;
  return { text: "found with gas flowing, since an unknown time", measured: null, limit: null, since };
}

/** Idle counts from the last use of the machine, or from the fitting of this charge if that is later. */
function whyIdle(absorbent: FittedAbsorbent, context: RuleContext, idleFor: Quantity): Because | null {
  const lastUsed = context.evidence.workstation?.lastUsedAt ?? null;
  if (lastUsed === null || !absorbent.product.strongBase) return null;
  const from = instant(Math.max(instantOf(lastUsed), instantOf(absorbent.from)));
  const dryFrom = later(from, Math.round(idleFor.value * DAY));
  // One millisecond later, because exactly so long is still allowed.
  if (!context.hasCome(later(dryFrom, 1))) return null;
  const standing = context.standing("absorbent-dry", subjectOf(absorbent));
  if (standing.state === "passing" && instantOf(standing.observation.observedAt) > dryFrom) return null;
  return { text: `unused for more than ${said(idleFor)}`, measured: null, limit: idleFor, since: lastUsed };
}

function suspected(absorbent: FittedAbsorbent, because: Because, context: RuleContext): FindingDraft {
  const { measured, limit, since } = because;
  const subject = subjectOf(absorbent);
  const name = itemlessName(subject, context.evidence.workstation);
  const draft = { subject, measured, limit, since, items: ["absorbent-dry" as const] };
  if (!absorbent.product.strongBase)
    return { ...draft, severity: "due", text: `${name} may be dry: ${because.text}; change it` };
  const text = `${name} suspected dry: ${because.text}; change all of it`;
  if (!givesNoVolatile(context)) return { ...draft, text };
  return { ...draft, severity: "limits", takesAway: ["no-volatile"], text: `${text}, or intravenous only` };
}

/** The list says what it needs, and a volatile agent is not among it; or no vaporizer could give one. */
function givesNoVolatile(context: RuleContext): boolean {
  const { room, workstation } = context.evidence;
  const list = room?.list ?? null;
  if (list !== null && !needsOf(list).includes("volatile")) return true;
  return lostVaporizers(context).length === (workstation?.fitted.vaporizers.length ?? 0);
}

function inMinutes({ value, unit }: Quantity): Quantity | null {
  if (unit === "min") return quantity(value, "min");
  if (unit === "h") return quantity(value * 60, "min");
  if (unit === "s") return quantity(value / 60, "min");
  return unit === "d" ? quantity(value * 1440, "min") : null;
}

const strongBase = (ready: Evidence): Evidence =>
  withWorkstation(ready, ({ fitted }) => ({
    fitted: {
      ...fitted,
      absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, strongBase: true } })),
    },
  }));

const unusedSince = (ready: Evidence, minutes: number): Evidence =>
  withWorkstation(strongBase(ready), () => ({ lastUsedAt: minutesLater(ready, -minutes) }));
