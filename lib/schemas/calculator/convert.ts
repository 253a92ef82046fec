import { z } from "zod";
import { CONVERTIBLE_UNITS } from "@/lib/calculations/unit-conversion";
import { oneOf } from "./inputs";

export const convert = z.strictObject({
  value: z.number().meta({ title: "Value", description: "The number to convert" }),
  from: oneOf(CONVERTIBLE_UNITS, { title: "From", description: "Unit of the value" }),
  to: oneOf(CONVERTIBLE_UNITS, { title: "To", description: "Unit of the answer; it measures the same thing" }),
});
