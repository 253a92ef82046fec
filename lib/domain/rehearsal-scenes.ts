import type { Answer } from "@/lib/domain/answer";
import type { Dice } from "@/lib/domain/dice";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import type { Scene } from "@/lib/domain/rehearsal/model";
import type { Range, Ranges, Script, Telling } from "@/lib/domain/rehearsal-script";
import { BREATHING_SCRIPTS } from "@/lib/domain/rehearsal-scripts-breathing";
import { GAS_SCRIPTS } from "@/lib/domain/rehearsal-scripts-gas";
import { SUPPLY_SCRIPTS } from "@/lib/domain/rehearsal-scripts-supply";
import type { Place } from "@/lib/domain/rule";
import { verdictOf } from "@/lib/domain/verdict";
import { said } from "@/lib/domain/wording";
import { isPressureUnit, pressureIn } from "@/lib/units/pressure";
import { type Quantity, quantity, type Unit } from "@/lib/units/quantity";

const SCRIPTS: readonly Script[] = [...SUPPLY_SCRIPTS, ...GAS_SCRIPTS, ...BREATHING_SCRIPTS];

export const scriptOf = ({ item, subject }: CheckItem): Script | null =>
  SCRIPTS.find((script) => script.item === item && (script.of?.(subject) ?? true)) ?? null;

/**
 * The scene of a telling on this question, or null where it would not be true: where the site's own limits make the planted
 * figure a good one, or where the question is asked in another form than the script tells.
 */
export function sceneOf(telling: Telling, question: CheckItem, place: Place, dice: Dice): Scene | null {
  const figures = figuresOf(telling, question, place, dice);
  if (figures === null) return null;
  const { answer, words } = figures;
  const signs = telling.acts.map(([act, see]) => ({
    act,
    see: see.replace(/\{(\w+)\}/g, (_, name: string) => words[name] ?? name),
  }));
  return { signs, truth: answer };
}

/** A question that no script tells about, a site's own for one: it is as its words ask. */
export function plainScene({ form }: CheckItem): Scene | null {
  return form.kind === "pass"
    ? { signs: [{ act: "Do what the item says", see: `${form.yes}.` }], truth: { kind: "pass", passed: true } }
    : null;
}

interface Figures {
  readonly answer: Answer;
  readonly words: Readonly<Record<string, string>>;
}

function figuresOf({ truth }: Telling, question: CheckItem, place: Place, dice: Dice): Figures | null {
  const { form } = question;
  if (truth.kind !== form.kind) return null;
  if (truth.kind === "number" && form.kind === "number") {
    const reading = thrown(truth.reading, form.unit, form.decimals, place, dice);
    return reading && { answer: { kind: "number", reading }, words: { reading: said(reading) } };
  }
  if (truth.kind === "gauge" && form.kind === "gauge") {
    const open = thrown(truth.open, form.unit, 0, place, dice);
    const trapped = truth.trapped ? thrown(truth.trapped, form.unit, 0, place, dice) : open;
    if (!open || !trapped) return null;
    return {
      answer: { kind: "gauge", reading: open, openWhenRead: true, shutAgain: true },
      words: { reading: said(open), trapped: said(trapped) },
    };
  }
  if (truth.kind === "choice" && form.kind === "choice") {
    return form.options.some(({ value }) => value === truth.choice) ? { answer: truth, words: {} } : null;
  }
  return truth.kind === "pass" || truth.kind === "timed" ? { answer: truth, words: {} } : null;
}

/** A reading in the unit that is typed; null where the two units do not measure the same thing. */
function thrown(ranges: Ranges, unit: Unit, decimals: number, { facility }: Place, dice: Dice): Quantity | null {
  const range = ranges[facility.scheme];
  const from = inUnit(range.from, range, unit);
  const to = inUnit(range.to, range, unit);
  if (from === null || to === null) return null;
  const scale = 10 ** decimals;
  return quantity(Math.round((from + dice.next() * (to - from)) * scale) / scale, unit);
}

function inUnit(value: number, { unit: from }: Range, to: Unit): number | null {
  if (from === to) return value;
  return isPressureUnit(from) && isPressureUnit(to) ? pressureIn(value, from, to) : null;
}

/** Is the scene what it is meant to be by this site's own limits: nothing wrong, or plainly wrong? */
export const saysSo = (
  { truth }: Scene,
  { item, subject }: CheckItem,
  place: Place,
  wanted: "pass" | "fail",
): boolean => verdictOf(truth, { item, subject, place }) === wanted;
