import type { Answer } from "@/lib/domain/answer";
import { COLOUR_SHARES, FILL_SHARES } from "@/lib/domain/choices";
import type { ItemId } from "@/lib/domain/items";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import type { Holder } from "@/lib/storage/evidence";
import type { PressureUnit } from "@/lib/units/pressure";
import { pressureIn } from "@/lib/units/pressure";
import { type Condition, ratedIn } from "./condition";
import type { Chance } from "./random";

/** What somebody who looks at the equipment answers to one question of a check. */
export function answerTo(question: CheckItem, holder: Holder, condition: Condition, chance: Chance): Answer {
  const { form, item } = question;
  const fails = holder.workstationId !== null && condition.isBroken(holder.workstationId, item);
  switch (form.kind) {
    case "pass":
      return { kind: "pass", passed: !fails };
    case "timed":
      return fails
        ? { kind: "timed", seconds: chance.whole(2, 6), held: false }
        : { kind: "timed", seconds: form.seconds, held: true };
    case "gauge":
      return gaugeAnswer(question, form.unit, holder, condition);
    case "choice":
      return { kind: "choice", choice: choiceFor(question, holder, condition) };
    case "number": {
      const { workstation, observations } = holder.evidence;
      const leak = item === "breathing-leak" && workstation ? condition.leak(workstation, observations) : null;
      const value = fails ? badNumber(item, chance) : (leak ?? goodNumber(question, form.unit, chance));
      const factor = 10 ** form.decimals;
      const reading = { value: Math.round(value * factor) / factor, unit: form.unit };
      // Who finds something looks twice, and says so.
      return fails ? { kind: "number", reading, sure: true } : { kind: "number", reading };
    }
  }
}

/** A share of the rated pressure at which somebody looks at the gauge a second time. */
const FAR_FROM_FULL = 0.4;

/** Gauges are read to the nearest mark: 5 psi, 100 kPa, half a bar. */
const MARK: Readonly<Record<PressureUnit, number>> = { psi: 5, kPa: 100, bar: 0.5, mmHg: 1, cmH2O: 1, inHg: 1 };

function gaugeAnswer({ subject }: CheckItem, unit: PressureUnit, holder: Holder, condition: Condition): Answer {
  const { workstation, observations } = holder.evidence;
  const cylinder = workstation?.fitted.cylinders.find(({ id }) => id === subject.id);
  if (!cylinder) throw new Error("a gauge was asked of a cylinder that is not fitted");
  const pressure = condition.pressure(cylinder, observations) * ratedIn(cylinder, unit);
  const value = Math.round(pressure / MARK[unit]) * MARK[unit];
  const answer = { kind: "gauge", reading: { value, unit }, openWhenRead: true, shutAgain: true } as const;
  return pressure < FAR_FROM_FULL ? { ...answer, sure: true } : answer;
}

function choiceFor({ item, subject, form }: CheckItem, { evidence }: Holder, condition: Condition): string {
  const fitted = evidence.workstation?.fitted;
  const absorbent = fitted?.absorbent.find(({ id }) => id === subject.id);
  if (item === "absorbent-colour" && absorbent) return reached(COLOUR_SHARES, condition.colour(absorbent), "upper");
  const vaporizer = fitted?.vaporizers.find(({ id }) => id === subject.id);
  if (item === "vaporizer-fill" && vaporizer) return reached(FILL_SHARES, condition.level(vaporizer), "lower");
  const first = form.kind === "choice" ? form.options[0]?.value : undefined;
  if (first === undefined) throw new Error(`${item} has nothing to choose from`);
  return first;
}

/** The mark that a share has at least reached, or the next mark above it: each question says which it asks for. */
function reached(marks: ReadonlyMap<string, number>, share: number, end: "upper" | "lower"): string {
  const ascending = [...marks].sort(([, left], [, right]) => left - right);
  const found =
    end === "upper"
      ? ascending.find(([, mark]) => mark >= share - 0.02)
      : [...ascending].reverse().find(([, mark]) => mark <= share + 0.001);
  return found?.[0] ?? ascending.at(-1)?.[0] ?? "";
}

function goodNumber({ item, limits, form }: CheckItem, unit: string, chance: Chance): number {
  switch (item) {
    case "suction":
      return unit === "mmHg" ? chance.whole(38, 50) * 10 : chance.between(64, 78);
    case "pipeline-pressure":
      return pipelinePressure(unit, chance);
    case "oxygen-as-found":
    case "oxygen-in-air":
      return chance.between(20.7, 21.4);
    case "oxygen-after-flush":
      return chance.between(95, 99.5);
    case "breathing-leak":
      return chance.whole(2, 11) * 10;
    case "low-pressure-leak":
      return chance.whole(0, 5) * 5;
    case "absorbent-co2":
      return 0;
    default: {
      const least = limits?.atLeast?.value ?? (form.kind === "number" ? form.least : 0);
      const most = limits?.atMost?.value ?? (form.kind === "number" ? form.most : 0);
      return (least + most) / 2;
    }
  }
}

/** US pipelines run at 50 to 55 psi, ISO ones at 400 to 500 kPa: each in the middle of its own band. */
function pipelinePressure(unit: string, chance: Chance): number {
  if (unit === "psi") return chance.whole(51, 54);
  const kPa = chance.whole(42, 46) * 10;
  return unit === "bar" ? pressureIn(kPa, "kPa", "bar") : kPa;
}

/** How a broken thing reads. */
function badNumber(item: ItemId, chance: Chance): number {
  switch (item) {
    case "breathing-leak":
      return chance.whole(21, 42) * 10;
    case "low-pressure-leak":
      return chance.whole(8, 20) * 10;
    case "suction":
      return chance.whole(3, 5) * 10;
    case "oxygen-in-air":
      return chance.between(22.6, 23.9);
    case "oxygen-after-flush":
      return chance.between(80, 88);
    default:
      return 0;
  }
}
