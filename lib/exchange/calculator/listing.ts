import { z } from "zod";
import type { Calculation } from "./calculation";
import { CALCULATIONS } from "./registry";

/** A calculation with the JSON Schema of its whole request. */
export interface Listed {
  readonly calculation: string;
  readonly title: string;
  readonly group: string;
  readonly about: string;
  readonly inputs: object;
  readonly example: object;
}

export const listing = (): Listed[] => CALCULATIONS.map(listed);

function listed({ name, title, group, about, schema, example }: Calculation): Listed {
  const { properties, required, ...inputs } = inputsSchema(schema);
  return {
    calculation: name,
    title,
    group,
    about,
    inputs: {
      ...inputs,
      properties: { id: { type: ["string", "number", "null"] }, calculation: { const: name }, ...properties },
      required: ["calculation", ...(required ?? [])],
    },
    example: { id: 1, calculation: name, ...example },
  };
}

/** The JSON Schema of what a calculation takes, without id and name. */
export function inputsSchema(schema: z.core.$ZodType): z.core.JSONSchema.BaseSchema {
  return z.toJSONSchema(schema, { io: "input" });
}
