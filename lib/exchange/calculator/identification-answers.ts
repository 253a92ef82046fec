import { gs1CheckDigit } from "@/lib/calculations/gs1/check-digit";
import { fieldsOf, readElementString } from "@/lib/calculations/gs1/element-string";
import { readHibc } from "@/lib/calculations/hibc/hibc-string";
import { pinIndex } from "@/lib/calculations/pin-index";
import * as schemas from "@/lib/schemas/calculator/identification";
import { localDate } from "@/lib/units/time";
import { tell } from "./answer";
import { calculation } from "./calculation";

/** Read in 2049 every two-digit year is one of 2000 to 2099 (50 years ahead, 49 back). */
const THIS_CENTURY = localDate("2049-12-31");

export const gs1Answer = calculation({
  name: "gs1",
  title: "GS1 element string",
  group: "identification",
  about: "Fields by application identifier. What may be read otherwise is said, never guessed.",
  schema: schemas.gs1,
  example: { elementString: "(01)09506000134352(17)270200(10)AB1", seenOn: "2026-11-25" },
  run: ({ elementString, seenOn }) => {
    const reading = readElementString(elementString, seenOn === undefined ? THIS_CENTURY : localDate(seenOn));
    if (!reading.ok) return tell(reading, null);
    const { elements, suspicious } = reading.value;
    return tell(reading, null, { value: fieldsOf, more: { elements, suspicious } });
  },
});

export const checkDigitAnswer = calculation({
  name: "gs1-check-digit",
  title: "GS1 check digit",
  group: "identification",
  about: "The digit that completes a key. It does not find every change of two neighbours.",
  schema: schemas.gs1CheckDigit,
  example: { digits: "890400021003" },
  run: ({ digits }) => tell(gs1CheckDigit(digits), null),
});

export const hibcAnswer = calculation({
  name: "hibc",
  title: "HIBC string",
  group: "identification",
  about: "Labeler, product, lot, serial number and expiry of a HIBC supplier code.",
  schema: schemas.hibc,
  example: { string: "+A123BJC5D6E71G", seenOn: "2026-11-25" },
  run: ({ string, seenOn }) => tell(readHibc(string, seenOn === undefined ? null : localDate(seenOn)), null),
});

export const pinIndexAnswer = calculation({
  name: "pin-index",
  title: "Pin index",
  group: "identification",
  about: "Pin positions of a gas. Not for telling what is in a cylinder: the label does that.",
  schema: schemas.pinIndex,
  example: { gas: "oxygen" },
  run: ({ gas }) => tell(pinIndex(gas), null),
});
