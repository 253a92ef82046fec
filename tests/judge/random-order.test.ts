import { expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { forEachDocument } from "./each-document";
import { shuffled } from "./shuffled";

it("rooms by chance are judged the same with all their lists and fields in another order", { timeout: 240_000 }, () => {
  forEachDocument(1_500, (evidence, random, seed) => {
    expect(judge(shuffled(evidence, random)), `document ${seed}`).toEqual(judge(evidence));
  });
});
