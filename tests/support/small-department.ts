import type { Actor } from "@/lib/auth/actor";
import { proofWithoutSession } from "@/lib/auth/signing";
import type { Command } from "@/lib/commands/command";
import { type Executed, execute } from "@/lib/commands/execute";
import { found } from "@/lib/commands/found";
import { importDepartment } from "@/lib/commands/import-department";
import { DEFAULT_ACCESS } from "@/lib/domain/access/model";
import type { Answer } from "@/lib/domain/answer";
import type { Role } from "@/lib/domain/vocabulary";
import { importTemplate } from "@/lib/exchange/import-template";
import type { CheckItemView } from "@/lib/schemas/check";
import { IMPORT_FILES } from "@/lib/schemas/set-up";
import { putAccessSettings } from "@/lib/storage/access";
import { type Database, openDatabase } from "@/lib/storage/client";
import { findSession, insertSession } from "@/lib/storage/sessions";
import { instant } from "@/lib/units/time";
import { createTestDatabase } from "@/tests/support/database";

/** A clock that a test sets. */
export class SetClock {
  constructor(private at: number) {}
  now = (): number => this.at;
  set(text: string): void {
    this.at = Date.parse(text);
  }
  add(minutes: number): void {
    this.at += minutes * 60_000;
  }
}

export interface SmallDepartment {
  readonly database: Database;
  readonly appUrl: string;
  readonly ownerUrl: string;
  readonly clock: SetClock;
  readonly admin: Actor;
  person(name: string, roles: readonly Role[]): Promise<Actor>;
  run<In, Reply>(command: Command<In, Reply>, input: In, actor: Actor, key?: string): Promise<Executed<Reply>>;
  /** The same, for a step that must succeed. */
  must<In, Reply>(command: Command<In, Reply>, input: In, actor: Actor): Promise<Reply>;
  close(): Promise<void>;
}

const FACILITY = { name: "Alder Ridge", timeZone: "America/Chicago", scheme: "US", pressureUnit: "psi" } as const;

/** A department from nothing on a database of the test's own: the templates of the import, with people of several roles. */
export async function smallDepartment(at = "2026-11-24T11:30:00Z"): Promise<SmallDepartment> {
  const test = await createTestDatabase();
  const clock = new SetClock(Date.parse(at));
  const owner = openDatabase(test.ownerUrl);
  const ids = await found(owner, clock, {
    organisation: "Alder Ridge Health",
    facility: FACILITY.name,
    timeZone: FACILITY.timeZone,
    scheme: FACILITY.scheme,
    pressureUnit: FACILITY.pressureUnit,
    name: "Ada Brook",
    userId: "abrook",
    password: "a long enough password",
  });
  await owner.close();
  const database = openDatabase(test.appUrl);
  // In these departments a tap signs: what a signature asks for has tests of its own, which set it back.
  await database.inScope(ids, (tx) =>
    putAccessSettings(tx, ids.facilityId, {
      seen: 0,
      settings: { ...DEFAULT_ACCESS, signing: "none" },
      by: ids.personId,
      at: instant(clock.now()),
    }),
  );
  const admin = actorOf(ids, ids.personId, "Ada Brook", ["administrator", "manager"]);
  const department: SmallDepartment = {
    database,
    appUrl: test.appUrl,
    ownerUrl: test.ownerUrl,
    clock,
    admin,
    person: (name, roles) => addPerson(database, ids, name, roles, clock.now()),
    run: (command, input, actor, key) =>
      execute({ database, clock }, command, input, actor, key ?? null, proofFor(command, actor)),
    must: async (command, input, actor) => {
      const outcome = await execute({ database, clock }, command, input, actor, null, proofFor(command, actor));
      if (!outcome.ok) throw new Error(`${command.name}: ${outcome.refusal}: ${outcome.message}`);
      return outcome.value.reply;
    },
    close: async () => {
      await database.close();
      await test.drop();
    },
  };
  await department.must(importDepartment, { files: templates() }, admin);
  return department;
}

/** These people never came in by a request, so what they sign asks for nothing; the ceremony has tests of its own. */
const proofFor = (command: Command<never>, actor: Actor) =>
  command.meaning ? proofWithoutSession({ ...actor, sessionId: null }) : null;

/** Every template of the import: together they are a whole small department. */
export const templates = () => Object.fromEntries(IMPORT_FILES.map((file) => [file, importTemplate(file)]));

interface Ids {
  readonly organisationId: string;
  readonly facilityId: string;
}

function actorOf(ids: Ids, personId: string, name: string, roles: readonly Role[]): Actor {
  const facility = { ...FACILITY, id: ids.facilityId };
  return {
    kind: "person",
    personId,
    name,
    userId: name,
    roles,
    organisationId: ids.organisationId,
    facility,
    facilities: [],
    sessionId: null,
  };
}

async function addPerson(
  database: Database,
  ids: Ids,
  name: string,
  roles: readonly Role[],
  at: number,
): Promise<Actor> {
  const personId = crypto.randomUUID();
  await database.inScope(ids, async (tx) => {
    await tx.person.create({
      data: {
        id: personId,
        organisationId: ids.organisationId,
        userId: `u-${personId.slice(0, 8)}`,
        name,
        createdAt: new Date(at),
      },
    });
    await tx.personRole.createMany({ data: roles.map((role) => ({ facilityId: ids.facilityId, personId, role })) });
  });
  return actorOf(ids, personId, name, roles);
}

/** An open session of a person, for what asks for one. */
export async function openSession(department: SmallDepartment, actor: Actor): Promise<string> {
  const id = crypto.randomUUID();
  const scope = { organisationId: actor.organisationId, facilityId: actor.facility.id };
  const now = Date.now();
  await department.database.inScope(scope, (tx) =>
    insertSession(tx, {
      id,
      personId: actor.personId,
      ...scope,
      createdAt: instant(now),
      expiresAt: instant(now + 3_600_000),
    }),
  );
  const found = await findSession(department.database, id);
  if (!found) throw new Error("the session was not stored");
  return id;
}

/** What a healthy workstation answers, where the middle of the limits does not say it. */
const GOOD_NUMBERS: Readonly<Record<string, number>> = {
  "oxygen-as-found": 21,
  "oxygen-in-air": 21,
  "oxygen-after-flush": 98,
  battery: 95,
  "absorbent-co2": 0,
};

const GOOD_CHOICES: Readonly<Record<string, string>> = { "vaporizer-fill": "full", "absorbent-colour": "none" };

/** An answer that passes, for any question, by its item, its form and its limits. */
export function goodAnswer(question: CheckItemView): Answer {
  const { form, subjectName } = question;
  switch (form.kind) {
    case "pass":
      return { kind: "pass", passed: true };
    case "gauge": {
      const psi = subjectName.startsWith("Nitrous oxide") ? 745 : 1_900;
      const value = form.unit === "psi" ? psi : form.unit === "bar" ? Math.round(psi / 14.5) : Math.round(psi * 6.895);
      return { kind: "gauge", reading: { value, unit: form.unit }, openWhenRead: true, shutAgain: true };
    }
    case "timed":
      return { kind: "timed", seconds: form.seconds + 2, held: true };
    case "choice":
      return { kind: "choice", choice: GOOD_CHOICES[question.item] ?? form.options[0]?.value ?? "" };
    case "number":
      return { kind: "number", reading: { value: goodNumber(question, form), unit: form.unit } };
  }
}

function goodNumber({ item, limits }: CheckItemView, form: Extract<CheckItemView["form"], { kind: "number" }>): number {
  const known = GOOD_NUMBERS[item];
  if (known !== undefined) return known;
  const to = (value: number) => Number(value.toFixed(form.decimals));
  const least = limits?.atLeast?.value;
  const most = limits?.atMost?.value;
  if (least !== undefined && most !== undefined) return to((least + most) / 2);
  if (least !== undefined) return to(Math.min(form.most, least + (form.most - least) / 4));
  return to(most !== undefined ? Math.max(form.least, most / 2) : (form.least + form.most) / 2);
}
