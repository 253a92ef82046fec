import { convertUnit } from "@/lib/calculations/unit-conversion";
import * as schemas from "@/lib/schemas/calculator/convert";
import { tell } from "./answer";
import { calculation } from "./calculation";

export const convertAnswer = calculation({
  name: "convert",
  title: "Convert units",
  group: "units",
  about: "A value in another unit of the same kind. A gauge pressure stays a gauge pressure.",
  schema: schemas.convert,
  example: { value: 50, from: "psi", to: "kPa" },
  run: ({ value, from, to }) => tell(convertUnit(value, from, to), to),
});
