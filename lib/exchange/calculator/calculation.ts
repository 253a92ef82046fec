import type { z } from "zod";
import type { Outcome } from "./answer";
import { allWritable, notTold } from "./answer";
import { inputProblems } from "./input-problems";

export const GROUPS = [
  "gas",
  "vaporizer",
  "absorbent",
  "sensor",
  "dates",
  "safety",
  "identification",
  "units",
] as const;
export type Group = (typeof GROUPS)[number];

/** One calculation as the calculator offers it, by a name that stays. */
export interface Calculation {
  readonly name: string;
  readonly title: string;
  readonly group: Group;
  /** One sentence for people: what it tells and what it is not for. */
  readonly about: string;
  readonly schema: z.core.$ZodType;
  /** A request that is answered, for documentation and for a form's first values. */
  readonly example: Readonly<Record<string, unknown>>;
  readonly run: (inputs: unknown) => Outcome;
}

interface Definition<Schema extends z.ZodType> {
  readonly name: string;
  readonly title: string;
  readonly group: Group;
  readonly about: string;
  readonly schema: Schema;
  readonly example: z.input<Schema>;
  readonly run: (request: z.output<Schema>) => Outcome;
}

export function calculation<Schema extends z.ZodType>(definition: Definition<Schema>): Calculation {
  const { schema, run } = definition;
  return {
    ...definition,
    example: definition.example as Readonly<Record<string, unknown>>,
    run: (inputs) => {
      const parsed = schema.safeParse(inputs);
      return parsed.success ? ran(() => run(parsed.data)) : inputProblems(schema, inputs, parsed.error.issues);
    },
  };
}

const TOO_LARGE = notTold(
  "beyond-numbers",
  "The result is too large to be written. Check the units and the decimal points of the inputs.",
);

/** The constructors of lib/units throw on a number that is not finite: inputs so far from the trade overflow. */
function ran(run: () => Outcome): Outcome {
  try {
    const outcome = run();
    return allWritable(outcome) ? outcome : TOO_LARGE;
  } catch (error) {
    if (error instanceof RangeError) return TOO_LARGE;
    throw error;
  }
}
