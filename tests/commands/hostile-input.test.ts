import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { COMMANDS } from "@/lib/commands/all";
import type { Command } from "@/lib/commands/command";
import { importDepartment } from "@/lib/commands/import-department";
import { addPerson } from "@/lib/commands/people";
import { saveDraft } from "@/lib/commands/save-draft";
import { ROLES } from "@/lib/domain/vocabulary";
import { importTemplate } from "@/lib/exchange/import-template";
import { saveDraftRequest } from "@/lib/schemas/check";
import { IMPORT_FILES } from "@/lib/schemas/set-up";
import { expectFresh } from "@/tests/support/fresh-readiness";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";
import { FIRST_PASSWORD, inputFor } from "./prepared-inputs";

let department: SmallDepartment;
let actor: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  const person = { userId: "all.roles", name: "Somebody of every role", roles: [...ROLES], password: FIRST_PASSWORD };
  const { personId } = await department.must(addPerson, person, department.admin);
  actor = { ...department.admin, personId, name: person.name, userId: person.userId };
});
afterAll(() => department.close());

const HOSTILE: readonly unknown[] = [
  "",
  " ",
  "\u0000",
  "a\u0000b",
  "\ud800",
  "\udc00 end",
  "'; DROP TABLE room; --",
  "$1",
  "\\",
  "%",
  "../../etc",
  "x".repeat(5_000),
  "00000000-0000-4000-8000-000000000000",
  "NaN",
  "1e400",
  -1,
  0.1,
  1e308,
  2 ** 53 + 2,
  true,
  null,
  {},
  [],
  { __proto__: null, constructor: "x" },
];

/** The input once for each of its leaves and each hostile value in that leaf's place. */
function* spoiled(value: unknown, put: (inner: unknown) => unknown = (inner) => inner): Generator<unknown> {
  if (value !== null && typeof value === "object") {
    for (const [key, inner] of Object.entries(value)) {
      const around = (changed: unknown) =>
        put(Array.isArray(value) ? value.with(Number(key), changed) : { ...value, [key]: changed });
      yield* spoiled(inner, around);
    }
    return;
  }
  for (const hostile of HOSTILE) yield put(hostile);
}

describe("whatever stands in a field", () => {
  it.each(COMMANDS.map((command) => ({ name: command.name, command: command as Command<unknown> })))(
    "$name is refused by the schema, refused by the command, or done; it never breaks",
    async ({ name, command }) => {
      const input = await inputFor(name, { department, helper: actor, actor });
      expect(command.schema.safeParse(input).error).toBeUndefined();
      let refused = 0;
      let tried = 0;
      for (const changed of spoiled(input)) {
        tried += 1;
        const parsed = command.schema.safeParse(changed);
        if (!parsed.success) {
          expect(parsed.error.issues[0]?.message).not.toBe("");
          refused += 1;
          continue;
        }
        const outcome = await department.run(command, parsed.data, actor);
        if (!outcome.ok) expect(outcome.message).toMatch(/^\S.*[.?]$/s);
        else expect(command.replySchema.safeParse(outcome.value.reply).error).toBeUndefined();
      }
      // A command that takes nothing has nothing to spoil.
      expect(refused > 0).toBe(tried > 0);
    },
  );

  it.each(IMPORT_FILES)(
    "a cell of %s.csv is refused by line and column, or taken; it never breaks the import",
    async (file) => {
      const [header = "", row = ""] = importTemplate(file).split("\r\n");
      const cells = header.split(",").length;
      for (const hostile of [
        "\u0000",
        "a\u0000b",
        "\ud800",
        "'; DROP TABLE room; --",
        "x".repeat(5_000),
        "1e400",
        "-1",
        "today+99999",
        "today-99999",
      ]) {
        for (const line of [
          Array(cells).fill(hostile).join(","),
          row.replace(/^[^,]*/, hostile),
          row.replace(/[^,]*$/, hostile),
        ]) {
          const outcome = await department.run(importDepartment, { files: { [file]: `${header}\r\n${line}` } }, actor);
          if (!outcome.ok)
            expect(outcome).toMatchObject({
              refusal: "invalid",
              message: expect.stringMatching(/^Nothing was imported\. /),
            });
        }
      }
    },
  );

  it("a file that was not UTF-8 or holds half a character is refused by its line, and not kept as something else", async () => {
    const latin = new TextDecoder().decode(
      Uint8Array.from([...Buffer.from("name\r\nR"), 0xe4, ...Buffer.from("ume\r\n")]),
    );
    for (const stores of [latin, "name\r\nhalf \ud83d\r\n"]) {
      const outcome = await department.run(importDepartment, { files: { stores } }, actor);
      expect(outcome).toMatchObject({
        refusal: "invalid",
        message: expect.stringMatching(/stores, line 2: The file is not UTF-8 text/),
      });
    }
  });

  it("save-draft keeps anything that a record can hold", async () => {
    const { checkId } = (await inputFor("save-draft", { department, helper: actor, actor })) as { checkId: string };
    for (const hostile of HOSTILE) {
      for (const answers of [
        { suction: hostile },
        { [typeof hostile === "string" ? hostile.slice(0, 200) : "key"]: "1" },
        { deep: [{ er: hostile }] },
      ]) {
        const parsed = saveDraftRequest.safeParse({ checkId, answers });
        if (parsed.success)
          expect(await saveDraft(department, parsed.data, { ...actor, roles: ["technician"] })).toMatchObject({
            ok: true,
          });
        else expect(parsed.error.issues[0]?.message).toMatch(/must not hold/);
      }
    }
  });

  it("afterwards nothing is stale, and the rooms are still there", async () => {
    const names = Object.keys(await expectFresh(department));
    expect(names).toEqual(expect.arrayContaining(["AW-02", "OR 1", "OR 2", "OR 3", "Procedure 1"]));
    // What cannot be kept as it was typed is refused, and not kept as something else.
    expect(names.filter((name) => name.includes("\ufffd"))).toEqual([]);
  });
});
