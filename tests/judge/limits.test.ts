import { describe, expect, it } from "vitest";
import type { Evidence, SettingValue } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { SEVERITIES } from "@/lib/domain/judgement";
import type { Setting } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { about, answered, chosen, reading } from "@/lib/domain/rules/examples";
import type { Gas, Scheme } from "@/lib/domain/vocabulary";
import { unitsLike } from "@/lib/exchange/judge/reading-units";
import { type Quantity, quantity, valueIn } from "@/lib/units/quantity";
import { readyRoom } from "@/tests/support/ready-room";
import { LIMIT_ROWS, type LimitRow, type Side, TRIED_ELSEWHERE } from "./limit-table";

/** How bad the worst thing is that a rule says: the lower the worse; one past the end for nothing. */
function badness(evidence: Evidence, rule: string): number {
  const said = judge(evidence).reasons.filter((reason) => reason.rule === rule);
  return Math.min(SEVERITIES.length, ...said.map(({ severity }) => SEVERITIES.indexOf(severity)));
}

const settingOf = ({ rule, setting }: LimitRow): Setting => {
  const found = RULES.find(({ id }) => id === rule)?.settings[setting];
  if (found === undefined) throw new Error(`${rule} has no setting ${setting}`);
  return found;
};

const shippedIn = ({ default: shipped, iso }: Setting, scheme: Scheme): SettingValue =>
  scheme === "ISO" && iso ? iso.default : shipped;

/** A site's own limit, somewhat lower than the shipped one. */
function own(
  ready: Evidence,
  { rule, setting }: LimitRow,
  shipped: SettingValue,
): { room: Evidence; value: SettingValue } {
  if (typeof shipped !== "object") throw new Error("a limit is a quantity");
  const value = quantity(shipped.value * 0.96, shipped.unit);
  const settings = {
    ...ready.settings,
    [rule]: { on: true, values: { [setting]: value }, version: 7, citation: "own" },
  };
  return { room: { ...ready, settings }, value };
}

const STEP = 0.001;
/** For each side: is it well just under the limit, on it, and just over it? */
const WELL: Readonly<Record<Side, readonly [boolean, boolean, boolean]>> = {
  from: [false, true, true],
  to: [true, true, false],
  under: [true, false, false],
  over: [false, false, true],
};

function expectBothSides(room: Evidence, row: LimitRow, limit: Quantity, name: string): void {
  const bad = (value: number, unit = limit.unit) => badness(row.found(room, quantity(value, unit)), row.rule);
  const [less, on, more] = [bad(limit.value * (1 - STEP)), bad(limit.value), bad(limit.value * (1 + STEP))];
  const best = Math.max(less, on, more);
  const worst = Math.min(less, on, more);
  expect(worst, `${name}: nothing changes at ${limit.value} ${limit.unit}`).toBeLessThan(best);
  expect(
    [less, on, more].map((one) => one === best),
    `${name} at ${limit.value} ${limit.unit}`,
  ).toEqual(WELL[row.side]);
  for (const unit of unitsLike(limit.unit)) {
    const factor = valueIn(quantity(1, limit.unit), unit) ?? Number.NaN;
    const converted = [bad(limit.value * factor * (1 - STEP), unit), bad(limit.value * factor * (1 + STEP), unit)];
    expect(converted, `${name}, read in ${unit}`).toEqual([less, more]);
  }
}

describe.each(["US", "ISO"] as const)("both sides of every limit, %s", (scheme) => {
  const ready = readyRoom(scheme);
  it.each(LIMIT_ROWS.map((row) => [`${row.rule} ${row.setting}`, row] as const))("%s", (name, row) => {
    const shipped = shippedIn(settingOf(row), scheme);
    const room = row.given?.(ready) ?? ready;
    const asFound = (value: SettingValue): Quantity => row.limit?.(room, value) ?? (value as Quantity);
    expectBothSides(room, row, asFound(shipped), name);
    const changed = own(room, row, shipped);
    expectBothSides(changed.room, row, asFound(changed.value), `${name}, the site's own`);
  });
});

describe("limits that are words", () => {
  const ready = readyRoom();
  it.each([
    ["none", "holds"],
    ["quarter", "holds"],
    ["half", "due"],
    ["two-thirds", "stops"],
    ["all", "stops"],
  ])("absorbent changed %s", (colour, expected) => {
    const bad = badness(answered(ready, "absorbent-colour", chosen(colour)), "absorbent-colour");
    expect(SEVERITIES[bad] ?? "holds").toBe(expected);
  });

  it.each([
    ["empty", "limits"],
    ["quarter", "due"],
    ["half", "holds"],
    ["three-quarters", "holds"],
    ["full", "holds"],
  ])("vaporizer %s", (level, expected) => {
    const room = answered(ready, "vaporizer-fill", chosen(level));
    const bad = Math.min(badness(room, "vaporizer-fill"), badness(room, "vaporizer-lost"));
    expect(SEVERITIES[bad] ?? "holds").toBe(expected);
  });
});

/** The bands as the trade writes them: stop under 45, notice to under 50, normal to 55, notice to 60, stop over it. */
const BANDS: readonly (readonly [Scheme, "psi" | "kPa", readonly (readonly [number, string])[]])[] = [
  [
    "US",
    "psi",
    [
      [0, "stop"],
      [44.9, "stop"],
      [45, "notice"],
      [49.9, "notice"],
      [50, "normal"],
      [55, "normal"],
      [55.1, "notice"],
      [60, "notice"],
      [60.1, "stop"],
      [120, "stop"],
    ],
  ],
  [
    "ISO",
    "kPa",
    [
      [0, "stop"],
      [319, "stop"],
      [320, "notice"],
      [399, "notice"],
      [400, "normal"],
      [500, "normal"],
      [501, "notice"],
      [550, "notice"],
      [551, "stop"],
      [900, "stop"],
    ],
  ],
];
const STOPS: Readonly<Record<Gas, string>> = {
  oxygen: "do-not-use",
  air: "ready-limited",
  "nitrous-oxide": "ready-limited",
};

describe.each(BANDS)("pipeline bands, %s", (scheme, unit, points) => {
  const cases = (["oxygen", "air", "nitrous-oxide"] as const).flatMap((gas) =>
    points.map(([value, band]) => [gas, value, band] as const),
  );
  it.each(cases)(`%s at %d ${unit} is %s`, (gas, value, band) => {
    const { state, reasons } = judge(
      answered(readyRoom(scheme), "pipeline-pressure", reading(value, unit), about(gas)),
    );
    const rule = `${gas}-pipeline`;
    const severity = reasons.find((reason) => reason.rule === rule)?.severity ?? null;
    expect(state).toBe(band === "stop" ? STOPS[gas] : "ready");
    if (band !== "stop") expect(severity).toBe(band === "notice" ? "note" : null);
  });
});

it("no limit is left untried", () => {
  const tried = new Set([
    ...LIMIT_ROWS.map(({ rule, setting }) => `${rule}.${setting}`),
    ...Object.keys(TRIED_ELSEWHERE),
  ]);
  const every = RULES.flatMap(({ id, settings }) => Object.keys(settings).map((name) => `${id}.${name}`));
  expect(every.filter((name) => !tried.has(name))).toEqual([]);
  expect([...tried].filter((name) => !every.includes(name))).toEqual([]);
});
