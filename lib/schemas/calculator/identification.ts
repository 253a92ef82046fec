import { z } from "zod";
import { PIN_GASES } from "@/lib/calculations/pin-index";
import { date, oneOf, text } from "./inputs";

const seenOn = date({
  title: "Read on",
  description: "The day on which the code is read, for the century of its dates; if absent years are 2000 to 2099",
}).optional();

export const gs1 = z.strictObject({
  elementString: text(
    { title: "Element string", description: "As scanned (separator ASCII 29) or as printed with brackets" },
    2_000,
  ),
  seenOn,
});

export const gs1CheckDigit = z.strictObject({
  digits: text({ title: "Digits", description: "The digits before the check digit, as a text" }, 200),
});

export const hibc = z.strictObject({
  string: text({ title: "HIBC string", description: "As scanned, from + to the check character" }, 2_000),
  seenOn,
});

export const pinIndex = z.strictObject({
  gas: oneOf(PIN_GASES, { title: "Gas", description: "Gas of the cylinder valve" }),
});
