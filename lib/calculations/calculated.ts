/** The answer of a calculation: a value with the method it came by, how far off it may be and where it is from, or a refusal. */
export type Calculated<Value, Refusal extends string, Detail extends object = object> =
  | Computed<Value>
  | Refused<Refusal, Detail>;

export interface Computed<Value> {
  readonly ok: true;
  readonly value: Value;
  /** The name of the method, as a person would choose it among others: "equation of state", "tank factor". */
  readonly method: string;
  /** What the inputs and the method leave open; null where the result is exact by definition. */
  readonly uncertainty: Uncertainty | null;
  readonly source: string;
}

/** The result may lie from `low` to `high`, in the unit of the value, for the reasons named. */
export interface Uncertainty {
  readonly low: number;
  readonly high: number;
  readonly because: string;
}

/** Rather than guess: a closed reason for code and one sentence for people; some refusals carry what can be said instead. */
export type Refused<Refusal extends string, Detail extends object = object> = {
  readonly ok: false;
  readonly refusal: Refusal;
  readonly message: string;
} & Partial<Detail>;

export function refused<Refusal extends string>(refusal: Refusal, message: string): Refused<Refusal> {
  return { ok: false, refusal, message };
}
