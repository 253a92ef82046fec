import { expect, it } from "vitest";
import { nextTag } from "@/app/set-up/equipment/next-tag";

it.each([
  ["AW-09", "AW-10"],
  ["AW-99", "AW-100"],
  ["12", "13"],
  ["TH-007 ", "TH-008"],
  ["Spare", ""],
  ["", ""],
])("after %s comes %s", (tag, next) => {
  expect(nextTag(tag)).toBe(next);
});
