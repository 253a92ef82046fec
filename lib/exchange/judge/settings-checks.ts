import type { Evidence, SettingOverride, SettingOverrides, SettingValue } from "@/lib/domain/evidence";
import type { Policy, Setting } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { POLICIES } from "@/lib/domain/rules/policies";
import type { Quantity, Unit } from "@/lib/units/quantity";
import { MOST, mostIn, outside } from "./number-checks";
import { type DocumentProblem, pathOf, type Step } from "./problem";
import { unitsLike } from "./reading-units";

const policies: ReadonlyMap<string, Policy> = new Map([...RULES, ...POLICIES].map((policy) => [policy.id, policy]));

const ALWAYS: ReadonlySet<string> = new Set(RULES.filter(({ always }) => always).map(({ id }) => id));

/** A setting that no rule would ever read is a limit that somebody believes in and that does not hold. */
export function settingsProblems({ settings, workstation, procedure }: Evidence): DocumentProblem[] {
  return [
    ...overrideProblems(["settings"], settings),
    ...overrideProblems(["workstation", "model", "settings"], workstation?.model.settings),
    ...overrideProblems(["procedure", "settings"], procedure?.settings),
  ];
}

/**
 * A name that every object has is passed over when records are read, and would vanish without a word: it is looked for in the
 * document as it came.
 */
export function vanishingNames(document: unknown): DocumentProblem[] {
  const records = [["settings"], ["workstation", "model", "settings"], ["procedure", "settings"]];
  return records.flatMap((at) => {
    const record = objectAt(document, at);
    const values = Object.entries(record).map(([id, setting]) => ({
      path: [...at, id, "values"],
      named: objectAt(setting, ["values"]),
    }));
    return [{ path: at, named: record }, ...values]
      .filter(({ named }) => Object.hasOwn(named, "__proto__"))
      .map(({ path }) => ({ path: pathOf([...path, "__proto__"]), value: null, message: "unknown name" }));
  });
}

function objectAt(document: unknown, at: readonly string[]): object {
  let value = document;
  for (const step of at) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return {};
    value = (value as Record<string, unknown>)[step];
  }
  return typeof value === "object" && value !== null ? value : {};
}

function overrideProblems(at: readonly Step[], settings: SettingOverrides = {}): DocumentProblem[] {
  return Object.entries(settings).flatMap(([id, setting]) => {
    const policy = policies.get(id);
    if (policy !== undefined) return [...switchProblems(at, policy, setting), ...valueProblems(at, policy, setting)];
    const message = `unknown rule; known: ${[...policies.keys()].join(", ")}`;
    return [{ path: pathOf([...at, id]), value: id, message }];
  });
}

export const isRule = (id: string): boolean => RULES.some((rule) => rule.id === id);
export const RULE_IDS: readonly string[] = RULES.map(({ id }) => id);

/** Who switches off what cannot be switched off would believe that it is. */
function switchProblems(at: readonly Step[], policy: Policy, { on }: SettingOverride): DocumentProblem[] {
  if (on !== false || !ALWAYS.has(policy.id)) return [];
  const message = `must be true: ${policy.id} cannot be switched off, as without it a room could be ready unlooked at`;
  return [{ path: pathOf([...at, policy.id, "on"]), value: on, message }];
}

function valueProblems(at: readonly Step[], policy: Policy, { values }: SettingOverride): DocumentProblem[] {
  return Object.entries(values).flatMap(([name, value]) => {
    const path = [...at, policy.id, "values", name];
    const setting = Object.hasOwn(policy.settings, name) ? policy.settings[name] : undefined;
    if (setting !== undefined) return valueProblem(path, value, setting);
    const known = Object.keys(policy.settings);
    const message =
      known.length === 0 ? "unknown setting; this rule has none" : `unknown setting; known here: ${known.join(", ")}`;
    return [{ path: pathOf(path), value, message }];
  });
}

function valueProblem(path: readonly Step[], value: SettingValue, setting: Setting): DocumentProblem[] {
  const shipped = setting.default;
  if (typeof shipped === "object" && typeof value === "object") {
    const known = unitsOfSetting(setting);
    if (!known.includes(value.unit)) {
      const message = `“${value.unit}” is not a unit here; known: ${known.join(", ")}`;
      return [{ path: pathOf([...path, "unit"]), value: value.unit, message }];
    }
    return limitProblems([...path, "value"], value);
  }
  if (typeof value !== typeof shipped) {
    const message = `must be ${WORDS[typeof shipped] ?? "of another kind"}, as the shipped ${JSON.stringify(shipped)}`;
    return [{ path: pathOf(path), value, message }];
  }
  if (typeof value === "number") return value >= 0 && value <= MOST ? [] : [outside(path, value, MOST)];
  const right = isTimeOfDay(shipped) ? `a time of day such as ${shipped}` : setting.words?.join(", ");
  const isRight = isTimeOfDay(shipped) ? isTimeOfDay(value) : (setting.words?.includes(String(value)) ?? true);
  return isRight ? [] : [{ path: pathOf(path), value, message: `must be ${right}` }];
}

const WORDS: Readonly<Record<string, string>> = {
  object: "a quantity with value and unit",
  number: "a number without a unit",
  boolean: "true or false",
  string: "a text",
};

function limitProblems(path: readonly Step[], { value, unit }: Quantity): DocumentProblem[] {
  const most = mostIn(unit);
  const least = unit === "C" ? -most : 0;
  return value >= least && value <= most ? [] : [outside(path, value, most, unit)];
}

const isTimeOfDay = (value: SettingValue): boolean =>
  typeof value === "string" && /^([01]\d|2[0-3]):[0-5]\d$/.test(value);

/** A share of the rated pressure may stand for a pressure only where the rule itself ships one in either scheme. */
function unitsOfSetting({ default: shipped, iso }: Setting): readonly Unit[] {
  const units = [shipped, iso?.default].flatMap((value) => (typeof value === "object" ? unitsLike(value.unit) : []));
  return [...new Set(units)];
}
