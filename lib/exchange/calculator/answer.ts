import type { Refused, Uncertainty } from "@/lib/calculations/calculated";

/** One answer of the calculator, as it is written on its line. `more` fields stand beside the fixed ones. */
export interface Told {
  readonly ok: true;
  /** A number, a text, or an object where there are several results; "not-limited" where no number is the answer. */
  readonly value: unknown;
  /** Null where the value has none: a date, a verdict, a code. */
  readonly unit: string | null;
  readonly method: string;
  readonly uncertainty: (Uncertainty & { readonly unit: string | null }) | null;
  readonly source: string;
  readonly more: Readonly<Record<string, unknown>>;
}

export interface NotTold {
  readonly ok: false;
  readonly refusal: string;
  /** One sentence: which input, what it is, and what would be right. */
  readonly message: string;
  readonly more: Readonly<Record<string, unknown>>;
}

export type Outcome = Told | NotTold;

interface Result<Value> {
  readonly ok: true;
  readonly value: Value;
  readonly method: string;
  readonly uncertainty: Uncertainty | null;
  readonly source: string;
}

/** How a result is written, where it is not as it stands. */
export interface Writing<Value> {
  readonly value?: (value: Value) => unknown;
  /** From the unit of the formula to the unit of the answer, for the ends of the uncertainty too. */
  readonly scale?: (number: number) => number;
  /** Why the uncertainty is as it is, where the formula's own words speak of its own unit. */
  readonly because?: string;
  readonly more?: Readonly<Record<string, unknown>>;
}

/** What a calculation found, in the form of an answer. */
export function tell<Value>(
  result: Result<Value> | Refused<string>,
  unit: string | null,
  writing: Writing<Value> = {},
): Outcome {
  if (!result.ok) {
    const { ok, refusal, message, ...more } = result;
    return { ok, refusal, message, more };
  }
  const { value, method, uncertainty, source } = result;
  const scale = writing.scale ?? ((number: number) => number);
  const written = writing.value ? writing.value(value) : typeof value === "number" ? scale(value) : value;
  return {
    ok: true,
    value: written,
    unit,
    method,
    uncertainty: uncertainty && {
      low: scale(uncertainty.low),
      high: scale(uncertainty.high),
      unit,
      because: writing.because ?? uncertainty.because,
    },
    source,
    more: writing.more ?? {},
  };
}

export function notTold(refusal: string, message: string, more: Readonly<Record<string, unknown>> = {}): NotTold {
  return { ok: false, refusal, message, more };
}

/** A number that was too large to be written leaves as a refusal and never as a blank. */
export function allWritable(value: unknown): boolean {
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || value === null) return true;
  return Object.values(value).every(allWritable);
}
