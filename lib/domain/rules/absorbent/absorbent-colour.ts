import type { Answer } from "@/lib/domain/answer";
import { COLOUR_SHARES } from "@/lib/domain/choices";
import type { Evidence, Observation } from "@/lib/domain/evidence";
import type { Subject } from "@/lib/domain/items";
import type { About, Assessment, FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import {
  answered,
  chosen,
  minutesLater,
  reading,
  unanswered,
  withRoom,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { failingOf, passingOf, type Seen } from "@/lib/domain/rules/failing";
import { type Instant, instantOf } from "@/lib/units/time";

const settings = {
  /** As a share of the charge that has changed colour. */
  changeFrom: {
    default: 2 / 3,
    citation: "Jorgensen 1977, Acta Anaesthesiologica Scandinavica: colour shift to two thirds of the charge",
  },
  dueFrom: { default: 1 / 2, citation: "common practice, no source" },
};
type Values = { readonly changeFrom: number; readonly dueFrom: number };

/**
 * Spent absorbent lets carbon dioxide through. At the start of a day it is changed before the first case; found in the middle of
 * a list, with inspired carbon dioxide under its limit, it waits for the end of the case. A dye that reverts at rest looks fresh
 * in the morning: there only a new charge clears what was seen.
 */
export const absorbentColour: Rule<typeof settings> = {
  id: "absorbent-colour",
  inBrief: "absorbent used up",
  what: "The absorbent's colour shows that enough of it is left",
  severity: "stops",
  citation: settings.changeFrom.citation,
  items: ["absorbent-colour"],
  settings,
  allowedBy: [],
  covers: (subject) => subject.kind === "absorbent",
  assess: (answer, about, values) => colourAssessment(answer, about, values),
  passClears: ({ id }, { workstation }) =>
    !(workstation?.fitted.absorbent.find((one) => one.id === id)?.product.reverts ?? true),
  judge: (context, { dueFrom }) => [
    ...failingOf(context, "absorbent-colour").map((seen) => spent(seen, context)),
    ...passingOf(context, "absorbent-colour").flatMap((seen) => halfSpent(worstShown(seen, context), dueFrom)),
  ],
  examples: [
    { name: "a quarter", given: (ready) => answered(ready, "absorbent-colour", chosen("quarter")), expect: "holds" },
    { name: "half", given: (ready) => answered(ready, "absorbent-colour", chosen("half")), expect: "due" },
    {
      name: "two thirds at the start of the day",
      given: (ready) => answered(ready, "absorbent-colour", chosen("two-thirds")),
      expect: "stops",
    },
    {
      name: "two thirds in the middle of the list, inspired carbon dioxide 0.4 %",
      given: (ready) => answered(midList(ready), "absorbent-co2", reading(0.4, "%")),
      expect: "due",
    },
    {
      name: "two thirds in the middle of the list, inspired carbon dioxide not read",
      given: (ready) => midList(ready),
      expect: "stops",
    },
    {
      name: "half at close-out and none the next morning, with a dye that reverts",
      given: (ready) => reverted(ready, "half"),
      expect: "due",
    },
    {
      name: "two thirds at close-out and none the next morning, with a dye that reverts",
      given: (ready) => reverted(ready, "two-thirds"),
      expect: "stops",
    },
    { name: "not looked at", given: (ready) => unanswered(ready, "absorbent-colour"), expect: "owed" },
  ],
};

const shareOf = (answer: Answer): number | null =>
  answer.kind === "choice" ? (COLOUR_SHARES.get(answer.choice) ?? null) : null;

function colourAssessment(answer: Answer, _about: About, { changeFrom, dueFrom }: Values): Assessment {
  if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
  const share = shareOf(answer);
  if (share === null) return "uncounted";
  if (share >= changeFrom) return "fail";
  return share >= dueFrom ? "remark" : "pass";
}

function spent({ subject, observation }: Seen, context: RuleContext): FindingDraft {
  const found = observation.answer.kind === "choice" ? observation.answer.choice.replaceAll("-", " ") : "spent";
  const draft = { subject, measured: found, limit: "under two thirds", since: observation.observedAt };
  if (!isMidList(observation, context) || !removesCarbonDioxide(subject, context))
    return { ...draft, text: `Absorbent spent: colour changed ${found} (under two thirds at the start of the day)` };
  return { ...draft, severity: "due", text: `Change the absorbent after this case: colour changed ${found}` };
}

/** Inspired carbon dioxide of this charge was read and is under its limit. */
const removesCarbonDioxide = (subject: Subject, context: RuleContext): boolean =>
  context.standing("absorbent-co2", subject).state === "passing";

/** Of a dye that reverts at rest the strongest colour ever seen of this charge is the true one. */
function worstShown(seen: Seen, { evidence }: RuleContext): Seen {
  const absorbent = evidence.workstation?.fitted.absorbent.find(({ id }) => id === seen.subject.id);
  if (!absorbent?.product.reverts) return seen;
  let worst = seen;
  for (const observation of evidence.observations) {
    if (observation.item !== "absorbent-colour" || observation.subject.id !== absorbent.id) continue;
    const share = shareOf(observation.answer) ?? 0;
    const isSuperseded = evidence.observations.some(({ supersedes }) => supersedes === observation.id);
    if (!isSuperseded && share > (shareOf(worst.observation.answer) ?? 0)) worst = { ...seen, observation };
  }
  return worst;
}

/** Seen after today's first case began, and still the same check day. */
function isMidList(observation: Observation, context: RuleContext): boolean {
  const firstCase = context.evidence.room?.list?.firstCase ?? null;
  if (firstCase === null) return false;
  const seen: Instant = instantOf(observation.observedAt);
  const until = context.validUntil(seen);
  context.changesAt(until);
  return seen >= instantOf(firstCase) && context.now < until;
}

function halfSpent({ subject, observation: { answer } }: Seen, dueFrom: number): FindingDraft[] {
  const share = shareOf(answer);
  if (share === null || share < dueFrom || answer.kind !== "choice") return [];
  const found = answer.choice.replaceAll("-", " ");
  return [
    {
      subject,
      severity: "due",
      text: `Absorbent colour changed ${found}: change it today`,
      measured: found,
      limit: "under half",
    },
  ];
}

function midList(ready: Evidence): Evidence {
  const seen = answered(ready, "absorbent-colour", chosen("two-thirds"));
  const first = seen.observations.find(({ item }) => item === "absorbent-colour")?.observedAt ?? ready.now;
  return withRoom(seen, { list: { firstCase: first, end: null, needs: [], setUpMinutes: 0 } });
}

/** White this morning, and coloured the evening before. */
function reverted(ready: Evidence, evening: string): Evidence {
  const reverting = withWorkstation(ready, ({ fitted }) => ({
    fitted: {
      ...fitted,
      absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, reverts: true } })),
    },
  }));
  const at = minutesLater(ready, -14 * 60);
  const seen = answered(reverting, "absorbent-colour", chosen(evening)).observations;
  const before = seen
    .filter(({ item }) => item === "absorbent-colour")
    .map((one) => ({ ...one, id: `${one.id}-evening`, observedAt: at, recordedAt: at }));
  return { ...reverting, observations: [...reverting.observations, ...before] };
}
