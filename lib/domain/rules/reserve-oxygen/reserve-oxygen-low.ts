import { contentsText } from "@/lib/domain/contents";
import type { Evidence, FittedCylinder, WorkstationEvidence } from "@/lib/domain/evidence";
import { type Subject, sameSubject } from "@/lib/domain/items";
import { naturalOrder } from "@/lib/domain/natural-order";
import type { FindingDraft, Place, Rule, RuleContext } from "@/lib/domain/rule";
import { answered, cylinderOf, gauge, unanswered, withValues, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { cylinderNamed } from "@/lib/domain/rules/gauge";
import {
  RESERVE_WORDS,
  type ReserveLimits,
  reserveAmount,
  reserveAssessment,
  reserveLimit,
} from "@/lib/domain/rules/reserve-oxygen/reserve-amount";
import { said } from "@/lib/domain/wording";
import { type Quantity, quantity, valueIn } from "@/lib/units/quantity";

const settings = {
  /** A pressure, or a share of the cylinder's own rated filling pressure. */
  atLeast: {
    default: quantity(1000, "psi") as Quantity,
    citation: "FDA anesthesia apparatus checkout 1993, step 2: at least half full, about 1,000 psi",
    iso: {
      default: quantity(50, "%") as Quantity,
      citation:
        "Half of the rated filling pressure: the principle of FDA 1993, step 2, carried over (common practice, no source)",
    },
  },
  /** pressure, litres or minutes. */
  judgeBy: {
    default: "pressure",
    words: RESERVE_WORDS,
    citation: "FDA anesthesia apparatus checkout 1993, step 2, judges by pressure",
  },
  atLeastLitres: {
    default: quantity(310, "L") as Quantity,
    citation:
      "1,000 psi in 4.8 L is 340 L by the equation of state (Schmidt and Wagner 1985), less the error of a gauge, rounded down",
  },
  atLeastMinutes: { default: quantity(15, "min") as Quantity, citation: "common practice, no source" },
};

const coversOxygen = (subject: Subject, place: Place): boolean => cylinderNamed(subject, place)?.gas === "oxygen";

/**
 * Equivalent care: the room needs one good reserve, not every cylinder full. So one oxygen cylinder at or over the limit, read
 * with its valve open and with no leak at its yoke, is enough; a low one beside it is work, not a stop.
 * When none is good and one is still unread, nobody knows yet whether the reserve is there. That is "to check" and not "do not
 * use": the workstation cannot start in either state, and a stop that the next reading lifts would teach people to doubt stops.
 */
export const reserveOxygenLow: Rule<typeof settings> = {
  id: "reserve-oxygen-low",
  inBrief: "reserve oxygen low",
  what: "At least one oxygen cylinder on the workstation at or over the limit, read with its valve open",
  severity: "stops",
  citation: settings.atLeast.citation,
  items: ["cylinder-gauge"],
  settings,
  allowedBy: [],
  covers: coversOxygen,
  assess: (answer, { subject, place }, limits) =>
    reserveAssessment(answer, cylinderNamed(subject, place), limits, place),
  shows: ({ subject, place }, limits) => {
    const cylinder = cylinderNamed(subject, place);
    return cylinder === null ? null : { atLeast: reserveLimit(cylinder, limits, place) };
  },
  judge: (context, limits) => {
    const { workstation } = context.evidence;
    const cylinders = workstation?.fitted.cylinders.filter(({ gas }) => gas === "oxygen") ?? [];
    if (cylinders.length === 0) return hasOxygenYoke(workstation) ? [noCylinder(context)] : [];
    return judgeSet(context, cylinders, limits);
  },
  examples: [
    {
      name: "1,000 psi, the limit itself",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(1000), cylinderOf(ready, "oxygen")),
      expect: "holds",
    },
    {
      name: "999 psi",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(999), cylinderOf(ready, "oxygen")),
      expect: "stops",
    },
    {
      name: "2,000 psi read with the valve shut",
      given: (ready) =>
        answered(ready, "cylinder-gauge", gauge(2000, "psi", { open: false }), cylinderOf(ready, "oxygen")),
      expect: "owed",
    },
    { name: "not read", given: (ready) => unanswered(ready, "cylinder-gauge"), expect: "owed" },
    {
      name: "no oxygen cylinder on its yoke",
      given: (ready) =>
        withWorkstation(ready, ({ fitted }) => ({
          fitted: { ...fitted, cylinders: fitted.cylinders.filter(({ gas }) => gas !== "oxygen") },
        })),
      expect: "stops",
    },
    {
      name: "600 psi where the site accepts the older 600 psi",
      given: (ready) =>
        withValues(answered(ready, "cylinder-gauge", gauge(600), cylinderOf(ready, "oxygen")), "reserve-oxygen-low", {
          atLeast: quantity(600, "psi"),
        }),
      expect: "holds",
    },
    {
      name: "1,000 psi where the site judges by litres",
      given: (ready) => judgedBy(ready, 1000, "litres"),
      expect: "holds",
    },
    {
      name: "980 psi where the site judges by litres",
      given: (ready) => judgedBy(ready, 980, "litres"),
      expect: "stops",
    },
    {
      name: "1,100 psi where the site judges by minutes on the ventilator",
      given: (ready) => judgedBy(ready, 1100, "minutes"),
      expect: "holds",
    },
    {
      name: "1,000 psi where the site judges by minutes on the ventilator",
      given: (ready) => judgedBy(ready, 1000, "minutes"),
      expect: "stops",
    },
    {
      name: "68.5 bar of a cylinder rated 137 bar",
      scheme: "ISO",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(68.5, "bar"), cylinderOf(ready, "oxygen")),
      expect: "holds",
    },
    {
      name: "68 bar of a cylinder rated 137 bar",
      scheme: "ISO",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(68, "bar"), cylinderOf(ready, "oxygen")),
      expect: "stops",
    },
  ],
};

const judgedBy = (ready: Evidence, psi: number, judgeBy: string): Evidence =>
  withValues(answered(ready, "cylinder-gauge", gauge(psi), cylinderOf(ready, "oxygen")), "reserve-oxygen-low", {
    judgeBy,
  });

/** A model without an oxygen yoke was never meant to carry a reserve; the cylinder away from the machine is all it has. */
const hasOxygenYoke = (workstation: WorkstationEvidence | null): boolean =>
  workstation?.model.yokes.some(({ gas }) => gas === "oxygen") ?? false;

function noCylinder(context: RuleContext): FindingDraft {
  const limit = "one oxygen cylinder";
  return {
    subject: workstationSubject(context),
    text: "No reserve oxygen cylinder on the workstation",
    measured: "none",
    limit,
  };
}

interface Low {
  readonly cylinder: FittedCylinder;
  readonly subject: Subject;
  readonly reading: Quantity;
  /** Why it does not count although its pressure is enough. */
  readonly but: string | null;
}

function judgeSet(context: RuleContext, cylinders: readonly FittedCylinder[], limits: ReserveLimits): FindingDraft[] {
  const low: Low[] = [];
  for (const cylinder of cylinders) {
    const subject = { kind: "cylinder", id: cylinder.id } as const;
    const standing = context.standing("cylinder-gauge", subject);
    const but = whyNotCounted(context, subject);
    // Unread, or read and no longer standing: whether there is a good reserve is not known.
    if (standing.state === "owed" || standing.state === "not-asked") return [];
    if (standing.state === "passing" && but === null) return [];
    const { answer } = standing.observation;
    if (answer.kind === "gauge" || answer.kind === "number")
      low.push({ cylinder, subject, reading: answer.reading, but });
  }
  const best = low.sort(
    (left, right) =>
      inPsi(right.reading) - inPsi(left.reading) || naturalOrder(left.cylinder.position, right.cylinder.position),
  )[0];
  return best === undefined ? [] : [finding(context, best, cylinders.length, limits)];
}

const inPsi = (reading: Quantity): number => valueIn(reading, "psi") ?? 0;

function whyNotCounted(context: RuleContext, subject: Subject): string | null {
  if (context.standing("yoke-leak", subject).state === "failing") return "but its yoke leaks";
  const quarantined = context.evidence.workstation?.quarantine ?? [];
  return quarantined.some((one) => !one.item && sameSubject(one.subject, subject)) ? "but it is quarantined" : null;
}

function finding(
  context: RuleContext,
  { cylinder, subject, reading, but }: Low,
  cylinders: number,
  limits: ReserveLimits,
): FindingDraft {
  const limit = reserveLimit(cylinder, limits, context.evidence);
  const amount = reserveAmount(reading, cylinder, limits, context.evidence) ?? reading;
  const best = cylinders > 1 ? `, the best of ${cylinders}` : "";
  const contents = contentsText(reading, cylinder, context.evidence);
  const why = but === null ? ` (at least ${said(limit)})` : `, ${but}`;
  return { subject, text: `Reserve oxygen ${said(reading)}${contents}${best}${why}`, measured: amount, limit };
}
