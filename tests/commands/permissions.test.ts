import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { COMMANDS } from "@/lib/commands/all";
import type { Command } from "@/lib/commands/command";
import { addFacility } from "@/lib/commands/found";
import { addPerson, changeRoles } from "@/lib/commands/people";
import { rejudgeDue } from "@/lib/commands/rejudge";
import { saveDraft } from "@/lib/commands/save-draft";
import { type CommandName, PERMISSIONS } from "@/lib/domain/permission";
import { ROLES, type Role } from "@/lib/domain/vocabulary";
import { contentsOf } from "@/tests/support/postgres";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";
import { FIRST_PASSWORD, inputFor } from "./prepared-inputs";

let department: SmallDepartment;
const people = new Map<Role, Actor>();
let everything: Actor;
/** Somebody who has left: every role on record, and inactive. */
let leaver: Actor;

const personWith = async (userId: string, roles: readonly Role[]): Promise<Actor> => {
  const person = { userId, name: `Somebody as ${roles.join(" and ")}`, roles: [...roles], password: FIRST_PASSWORD };
  const { personId } = await department.must(addPerson, person, department.admin);
  // What the session claims is more than the person has: only the roles on record may count.
  return { ...department.admin, personId, name: person.name, userId, roles: [...ROLES] };
};

beforeAll(async () => {
  department = await widerDepartment();
  for (const role of ROLES) people.set(role, await personWith(`as.${role}`, [role]));
  everything = await personWith("as.everything", ROLES);
  leaver = await personWith("has.left", ROLES);
  await department.must(changeRoles, { personId: leaver.personId, roles: [...ROLES], active: false }, department.admin);
});
afterAll(() => department.close());
beforeEach(async () => {
  department.clock.add(1);
  // What the clock alone makes due is nobody's change: it is stored before anybody tries anything.
  await rejudgeDue(department.database, department.clock, scopeOf(department.admin));
});

const allowed = (command: CommandName, role: Role) => (PERMISSIONS[command] as readonly Role[]).includes(role);
const actorWith = (role: Role): Actor => people.get(role) ?? everything;
const held = (actor: Actor) => contentsOf(department.appUrl, scopeOf(actor));
const prepared = (command: CommandName, actor: Actor): Promise<unknown> =>
  inputFor(command, { department, helper: everything, actor });

describe("the table of permissions", () => {
  it("names every command, every role a person can have, and nothing else", () => {
    const beside: CommandName[] = ["save-draft", "add-facility"];
    expect([...COMMANDS.map(({ name }) => name), ...beside].sort()).toEqual(Object.keys(PERMISSIONS).sort());
    const roles = new Set(Object.values(PERMISSIONS).flat());
    expect([...roles].sort()).toEqual([...ROLES].sort());
    for (const role of ROLES) expect(COMMANDS.some(({ name }) => allowed(name, role))).toBe(true);
  });
});

describe.each(COMMANDS.map((command) => ({ name: command.name, command: command as Command<unknown> })))(
  "$name",
  ({ name, command }) => {
    const parsed = async (actor: Actor) => command.schema.parse(await prepared(name, actor));

    it.each(ROLES.filter((role) => allowed(name, role)))("is done for a %s", async (role) => {
      const actor = actorWith(role);
      const input = await parsed(actor);
      const before = await held(actor);
      const outcome = await department.run(command, input, actor, crypto.randomUUID());
      expect(outcome).toMatchObject({ ok: true, value: { replayed: false } });
      expect(command.replySchema.safeParse(outcome.ok && outcome.value.reply).error).toBeUndefined();
      expect((await held(actor))["history.leaf"]).not.toBe(before["history.leaf"]);
    });

    describe("changes nothing", () => {
      let input: unknown;
      beforeAll(async () => {
        input = await parsed(everything);
      });

      const others = ROLES.filter((role) => !allowed(name, role));
      it.each([...others, "leaver" as const])("for a %s", async (role) => {
        const actor = role === "leaver" ? leaver : actorWith(role);
        const before = await held(actor);
        expect(await department.run(command, input, actor, crypto.randomUUID())).toMatchObject({
          ok: false,
          refusal: "not-allowed",
        });
        expect(await held(actor)).toEqual(before);
      });

      it("and the very same input is good from somebody who may", async () => {
        expect(await department.run(command, input, everything)).toMatchObject({ ok: true });
      });
    });
  },
);

describe("the two writes beside the commands", () => {
  it.each(ROLES.map((role) => ({ role, may: allowed("save-draft", role) })))(
    "save-draft as $role: $may",
    async ({ role, may }) => {
      const actor = { ...actorWith(role), roles: [role] };
      const input = await prepared("save-draft", everything);
      const before = await held(actor);
      const outcome = await saveDraft(department, input as Parameters<typeof saveDraft>[1], actor);
      expect(outcome.ok ? "done" : outcome.refusal).toBe(may ? "done" : "not-allowed");
      if (!may) expect(await held(actor)).toEqual(before);
    },
  );

  it.each(ROLES.map((role) => ({ role, may: allowed("add-facility", role) })))(
    "add-facility as $role: $may",
    async ({ role, may }) => {
      const actor = actorWith(role);
      const input = await prepared("add-facility", actor);
      const before = await held(actor);
      const outcome = await addFacility(department, input as Parameters<typeof addFacility>[1], actor);
      expect(outcome.ok ? "done" : outcome.refusal).toBe(may ? "done" : "not-allowed");
      if (!may) expect(await held(actor)).toEqual(before);
    },
  );
});
