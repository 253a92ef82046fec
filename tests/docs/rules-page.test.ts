import { expect, it } from "vitest";
import { rulesPage } from "./rules-page";

it("docs/rules.md says what the rules say", async () => {
  await expect(rulesPage()).toMatchFileSnapshot("../../docs/rules.md");
});
