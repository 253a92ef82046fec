import { type Dice, dice } from "@/lib/domain/dice";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import type { Procedure } from "@/lib/domain/procedure/model";
import type {
  FalseAlarm,
  FaultResult,
  Planted,
  Practised,
  Rehearsal,
  RehearsalQuestion,
  RehearsalResult,
  Scene,
} from "@/lib/domain/rehearsal/model";
import { plainScene, saysSo, sceneOf, scriptOf } from "@/lib/domain/rehearsal-scenes";
import type { ScriptedFault } from "@/lib/domain/rehearsal-script";
import type { Place } from "@/lib/domain/rule";
import { verdictOf } from "@/lib/domain/verdict";

/** How many faults may be planted; the published studies planted five or six. */
export const FAULTS = { least: 1, most: 8, usual: 5 } as const;

interface Staged {
  readonly question: RehearsalQuestion;
  readonly scene: Scene;
  readonly planted: Planted | null;
}

/**
 * The same seed, number and procedure give the same workstation with the same faults.
 * A question that cannot be acted out (the site asks it in a form that no script knows) is left out.
 */
export function rehearse(seed: number, faults: number, procedure: Pick<Procedure, "items">, place: Place): Rehearsal {
  const staged = stage(seed, faults, procedure, place);
  return {
    seed,
    questions: staged.map(({ question }) => question),
    planted: staged.flatMap(({ planted }) => planted ?? []),
  };
}

function stage(seed: number, faults: number, procedure: Pick<Procedure, "items">, place: Place): Staged[] {
  const chance = dice(seed);
  const questions = expandProcedure(procedure, place);
  const spots = chance.shuffled(questions.flatMap((question) => spotsOf(question, place, chance)));
  const chosen = new Map<string, Spot>();
  for (const spot of spots) {
    if (chosen.size === faults) break;
    // One fault an item: crossed pipes show on every pipeline, but two of one kind teach nothing more.
    const taken = [...chosen.values()].some(({ question }) => question.item === spot.question.item);
    if (!taken) chosen.set(spot.question.key, spot);
  }
  return questions.flatMap((question) => {
    const spot = chosen.get(question.key);
    const scene = spot?.scene ?? healthyScene(question, place, chance);
    if (scene === null) return [];
    return { question: { ...question, signs: scene.signs }, scene, planted: spot ? plantedAt(spot) : null };
  });
}

interface Spot {
  readonly question: CheckItem;
  readonly fault: ScriptedFault;
  readonly scene: Scene;
}

function spotsOf(question: CheckItem, place: Place, chance: Dice): Spot[] {
  const faults = scriptOf(question)?.faults ?? [];
  const possible = faults.flatMap((fault): Spot[] => {
    const scene = sceneOf(fault, question, place, chance);
    return scene && saysSo(scene, question, place, "fail") ? [{ question, fault, scene }] : [];
  });
  return possible.length === 0 ? [] : [chance.pick(possible)];
}

function healthyScene(question: CheckItem, place: Place, chance: Dice): Scene | null {
  const script = scriptOf(question);
  if (!script) return plainScene(question);
  const scene = sceneOf(script.healthy, question, place, chance);
  return scene && saysSo(scene, question, place, "pass") ? scene : null;
}

/** The valve is shut again after the fault has shown; every other script shows its fault last. */
const plantedAt = ({ question, fault, scene }: Spot): Planted => ({
  key: question.key,
  fault: fault.id,
  wrong: fault.wrong,
  harm: fault.harm,
  showsAfter: question.form.kind === "gauge" ? scene.signs.length - 1 : scene.signs.length,
});

/** What was found and what was missed. Found is an answer that the site's own limits call failed, and nothing softer. */
export function resultOf(
  { seed, faults }: { readonly seed: number; readonly faults: number },
  procedure: Pick<Procedure, "items">,
  place: Place,
  practised: readonly Practised[],
): RehearsalResult {
  const staged = stage(seed, faults, procedure, place);
  const given = new Map(practised.map((one) => [one.key, one]));
  const results = staged.flatMap((one) => (one.planted ? faultResult(one, one.planted, given, place) : []));
  const good = staged.filter(({ planted }) => planted === null);
  const named = ({ question: { key, title } }: Staged) => ({ key, title });
  return {
    faults: results,
    found: results.filter(({ outcome }) => outcome === "found").length,
    planted: results.length,
    falseAlarms: good.flatMap((one) => falseAlarm(one, given, place)),
    unseen: good
      .filter(({ question }) => (given.get(question.key)?.seen ?? question.signs.length) < question.signs.length)
      .map(named),
    unanswered: staged.filter(({ question }) => !given.has(question.key)).map(named),
  };
}

function faultResult(
  { question }: Staged,
  planted: Planted,
  given: ReadonlyMap<string, Practised>,
  place: Place,
): FaultResult {
  const answer = given.get(question.key);
  const about = { ...planted, title: question.title };
  if (!answer) return { ...about, outcome: "not-reached", because: "This item was not answered." };
  if (verdictOf(answer.answer, { item: question.item, subject: question.subject, place }) === "fail")
    return { ...about, outcome: "found", because: null };
  return { ...about, outcome: "missed", because: whyMissed(answer, planted) };
}

function whyMissed({ answer, seen }: Practised, { showsAfter }: Planted): string {
  if (seen < showsAfter) return "It was answered before the fault could be seen.";
  if (answer.kind === "gauge" && !answer.openWhenRead)
    return "Read with the valve shut: that proves nothing, and it was left at that.";
  return "It was to be seen, and was called good.";
}

/** Within this share of what was shown a figure was read right; the needle of a dial allows no more. Common practice, no source. */
const READ_WITHIN = 0.05;

function falseAlarm({ question, scene }: Staged, given: ReadonlyMap<string, Practised>, place: Place): FalseAlarm[] {
  const answer = given.get(question.key)?.answer;
  if (!answer) return [];
  const { key, title, item, subject } = question;
  if (verdictOf(answer, { item, subject, place }) === "fail")
    return [{ key, title, because: "Nothing was wrong here." }];
  const shown = readingOf(scene.truth);
  const read = readingOf(answer);
  if (shown === null || read === null || Math.abs(read - shown) <= Math.abs(shown) * READ_WITHIN) return [];
  return [{ key, title, because: `${read} was recorded; ${shown} was to be read.` }];
}

const readingOf = (answer: Scene["truth"]): number | null =>
  answer.kind === "number" || answer.kind === "gauge" ? answer.reading.value : null;
