import { describe, expect, expectTypeOf, it } from "vitest";
import type { z } from "zod";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { readyRoom } from "@/tests/support/ready-room";

type DeepReadonly<T> = T extends string
  ? T
  : T extends (infer One)[]
    ? readonly DeepReadonly<One>[]
    : T extends object
      ? { readonly [Key in keyof T]: DeepReadonly<T[Key]> }
      : T;

/** The document as JSON carries it, with one thing changed by its path. */
function changed(path: readonly (string | number)[], value: unknown): unknown {
  const document: unknown = JSON.parse(JSON.stringify(readyRoom()));
  let at = document as Record<string | number, unknown>;
  for (const step of path.slice(0, -1)) at = at[step] as Record<string | number, unknown>;
  at[path.at(-1) ?? ""] = value;
  return document;
}

/** The paths of what is refused; an unknown field is named itself and not only the object it stands in. */
function refusedPaths(input: unknown): string[] {
  const parsed = evidenceDocument.safeParse(input);
  if (parsed.success) return [];
  return parsed.error.issues.flatMap((issue) => {
    const path = issue.path.map(String);
    return issue.code === "unrecognized_keys" ? issue.keys.map((key) => [...path, key].join(".")) : [path.join(".")];
  });
}

describe("the evidence document at the border", () => {
  it("has the domain's own type, no field more and none less", () => {
    type Parsed = DeepReadonly<z.infer<typeof evidenceDocument>>;
    expectTypeOf<Parsed>().toExtend<Evidence>();
    expectTypeOf<Evidence>().toExtend<Parsed>();
    expectTypeOf<keyof Parsed>().toEqualTypeOf<keyof Evidence>();
    expectTypeOf<keyof NonNullable<Parsed["workstation"]>>().toEqualTypeOf<
      keyof NonNullable<Evidence["workstation"]>
    >();
    expectTypeOf<keyof NonNullable<Parsed["room"]>>().toEqualTypeOf<keyof NonNullable<Evidence["room"]>>();
    expectTypeOf<keyof Parsed["observations"][number]>().toEqualTypeOf<keyof Evidence["observations"][number]>();
    expectTypeOf<keyof Parsed["checks"][number]>().toEqualTypeOf<keyof Evidence["checks"][number]>();
  });

  it.each(["US", "ISO"] as const)(
    "takes a whole room of the %s scheme through JSON and judges it the same",
    (scheme) => {
      const document = readyRoom(scheme);
      const read = evidenceDocument.parse(JSON.parse(JSON.stringify(document)));
      expect(read).toEqual(document);
      expect(judge(read)).toEqual(judge(document));
    },
  );

  it.each([
    {
      what: "an unknown field deep inside",
      path: ["workstation", "fitted", "cylinders", 0, "colour"],
      value: "green",
      names: "workstation.fitted.cylinders.0.colour",
    },
    { what: "an unknown field at the top", path: ["patient"], value: "x", names: "patient" },
    { what: "a gas that is none", path: ["room", "piped", 0], value: "argon", names: "room.piped.0" },
    { what: "a time without a zone", path: ["now"], value: "2026-03-03 06:10", names: "now" },
    {
      what: "a reading that is text",
      path: ["observations", 3, "answer"],
      value: { kind: "number", reading: { value: "52", unit: "psi" } },
      names: "observations.3.answer.reading.value",
    },
    { what: "a unit that is none", path: ["facility", "pressureUnit"], value: "psia", names: "facility.pressureUnit" },
    {
      what: "a date that is none",
      path: ["workstation", "serviceDue"],
      value: [{ plan: "annual", due: "2026-02-30", window: { from: "2026-02-01", to: "2026-03-01" } }],
      names: "workstation.serviceDue.0.due",
    },
    { what: "a document of another shape", path: ["schema"], value: "yokeboard-evidence/0", names: "schema" },
  ])("refuses $what by its path", ({ path, value, names }) => {
    expect(refusedPaths(changed(path, value))).toContain(names);
  });

  it("refuses a missing field by its path", () => {
    const { room: _room, ...without } = readyRoom();
    expect(refusedPaths(without)).toEqual(["room"]);
  });

  it.each([null, undefined, "text", 5, []])("refuses %j, which is no document", (input) => {
    expect(evidenceDocument.safeParse(input).success).toBe(false);
  });
});
