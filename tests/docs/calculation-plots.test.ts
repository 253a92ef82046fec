import { readdirSync } from "node:fs";
import { expect, it } from "vitest";
import { svgOf } from "./plots/figure";
import { GAS_FIGURES } from "./plots/gas-figures";
import { OTHER_FIGURES } from "./plots/other-figures";

const FIGURES = { ...GAS_FIGURES, ...OTHER_FIGURES };

it.each(Object.entries(FIGURES))("docs/calculations/%s.svg shows what the calculation says", async (name, figure) => {
  const svg = svgOf(figure);
  expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  for (const { points } of figure.curves) expect(points.length).toBeGreaterThan(1);
  await expect(svg).toMatchFileSnapshot(`../../docs/calculations/${name}.svg`);
});

it("there is no plot that nothing makes", () => {
  const names = Object.keys(FIGURES).map((name) => `${name}.svg`);
  expect(
    readdirSync("docs/calculations")
      .filter((file) => file.endsWith(".svg"))
      .sort(),
  ).toEqual(names.sort());
});
