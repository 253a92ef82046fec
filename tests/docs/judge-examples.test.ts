import { readdirSync } from "node:fs";
import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import type { Rule } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { suction } from "@/lib/domain/rules/suction/suction";
import { JSON_SCHEMAS, type JsonSchemaName } from "@/lib/exchange/judge/json-schemas";
import { readEvidence } from "@/lib/exchange/judge/read-document";
import { type WorkedExample, workedExample, written } from "./judge-examples";

const FOLDER = "docs/judge";
/** As its file says it, which the first tests hold to be the same. */
const exampleOf = (rule: Rule) => JSON.parse(written(workedExample(rule))) as WorkedExample;
const SCHEMA_FILES = (Object.keys(JSON_SCHEMAS) as JsonSchemaName[]).map(
  (name) => [name, `${name}.schema.json`] as const,
);
const rules = RULES.map((rule) => [rule.id, rule] as const);

describe("docs/judge is written from the code", () => {
  it.each(rules)("the worked example of %s", async (id, rule) => {
    await expect(`${written(workedExample(rule))}\n`).toMatchFileSnapshot(`../../${FOLDER}/${id}.json`);
  });

  it.each(SCHEMA_FILES)("the JSON Schema of the %s", async (name, file) => {
    const text = `${JSON.stringify(JSON_SCHEMAS[name](), null, 2)}\n`;
    await expect(text).toMatchFileSnapshot(`../../${FOLDER}/${file}`);
  });

  it("holds nothing else", () => {
    const known = ["README.md", ...SCHEMA_FILES.map(([, file]) => file), ...RULES.map(({ id }) => `${id}.json`)];
    expect(readdirSync(FOLDER).filter((file) => !known.includes(file))).toEqual([]);
  });
});

describe("every worked example", () => {
  const compiled = new Map<JsonSchemaName, ValidateFunction>();
  const misfits = (name: JsonSchemaName, document: unknown): unknown[] => {
    const ajv = new Ajv2020({ strict: true, allErrors: true, validateFormats: false, allowUnionTypes: true });
    const validate = compiled.get(name) ?? ajv.compile(JSON_SCHEMAS[name]());
    compiled.set(name, validate);
    return validate(document) ? [] : [...(validate.errors ?? [])];
  };

  it.each(rules)("%s comes to what its file says", (_id, rule) => {
    const { evidence, judgement } = exampleOf(rule);
    const document = readEvidence(evidence);
    if (!document.ok) expect.fail(JSON.stringify(document.problems));
    expect(JSON.parse(JSON.stringify(judge(document.evidence)))).toEqual(judgement);
  });

  it.each(rules)("%s fits the JSON Schemas by a validator that is not ours", (_id, rule) => {
    const { evidence, judgement } = exampleOf(rule);
    expect(misfits("evidence", evidence)).toEqual([]);
    expect(misfits("judgement", judgement)).toEqual([]);
  });

  it("would not fit with a field that nobody knows, a unit that is none, or a part left out", () => {
    const { evidence, judgement } = exampleOf(suction);
    const { facility, ...rest } = evidence as { facility: object };
    expect(misfits("evidence", { ...rest, facility, patient: "x" })).not.toEqual([]);
    expect(misfits("evidence", { ...rest, facility: { ...facility, pressureUnit: "psig" } })).not.toEqual([]);
    expect(misfits("evidence", rest)).not.toEqual([]);
    expect(misfits("judgement", { ...judgement, state: "fine" })).not.toEqual([]);
  });
});
