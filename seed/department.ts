import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import type { Actor } from "@/lib/auth/actor";
import { proofWithoutSession } from "@/lib/auth/signing";
import type { Command } from "@/lib/commands/command";
import { type Executed, execute } from "@/lib/commands/execute";
import { importDepartment } from "@/lib/commands/import-department";
import type { DepartmentFile } from "@/lib/domain/department/model";
import type { Role } from "@/lib/domain/vocabulary";
import type { Database, Scope, Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import { type Frame, facilityFrame } from "@/lib/storage/facility-frame";
import { listPeople, type PersonRecord } from "@/lib/storage/people";
import { everyHolder } from "@/lib/storage/places";
import type { OpenTask } from "@/lib/storage/tasks";
import { openTasksAt } from "@/lib/storage/tasks-at";
import type { Instant } from "@/lib/units/time";

/** A clock that is set to when each thing happened. */
export class StepClock {
  constructor(private at: Instant) {}
  readonly now = (): Instant => this.at;
  /** Never backwards: what happened stays before what happens. */
  to(at: Instant): void {
    if (at > this.at) this.at = at;
  }
}

/** One facility as its people work in it: everything they do is a command, like anybody's. */
export class Department {
  private constructor(
    private readonly database: Database,
    private readonly clock: StepClock,
    private readonly scope: Scope,
    private readonly frame: Frame,
    private readonly people: ReadonlyMap<string, PersonRecord>,
  ) {}

  static async open(database: Database, clock: StepClock, scope: Scope): Promise<Department> {
    return database.inScope(scope, async (tx) => {
      const people = await listPeople(tx, scope.facilityId);
      const frame = await facilityFrame(tx, scope);
      return new Department(database, clock, scope, frame, new Map(people.map((person) => [person.userId, person])));
    });
  }

  get name(): string {
    return this.frame.facility.name;
  }
  get timeZone(): string {
    return this.frame.facility.timeZone;
  }

  /** The people here in one role, in the order of their names. */
  inRole(role: Role): readonly string[] {
    return [...this.people.values()]
      .filter(({ active, roles }) => active && roles.includes(role))
      .map(({ userId }) => userId);
  }

  /** Who usually does it; somebody else in that role where whoever tried the demonstration has changed who may. */
  usual(userId: string, role: Role): string {
    const able = this.inRole(role);
    return able.includes(userId) ? userId : (able[0] ?? userId);
  }

  userIdOf(personId: string): string {
    const person = [...this.people.values()].find(({ id }) => id === personId);
    if (!person) throw new Error(`${this.name} has nobody with the id ${personId}`);
    return person.userId;
  }

  /** What a person does at a moment. A refusal is a mistake in the story, and ends it. */
  async does<In, Reply>(userId: string, at: Instant, command: Command<In, Reply>, input: In): Promise<Reply> {
    const outcome = await this.tries(userId, at, command, input);
    if (!outcome.ok) throw new Error(`${this.name}: ${userId}, ${command.name}: ${outcome.message}`);
    return outcome.value.reply;
  }

  /** The same for what a room may refuse, as rooms do. */
  tries<In, Reply>(userId: string, at: Instant, command: Command<In, Reply>, input: In): Promise<Executed<Reply>> {
    this.clock.to(at);
    const actor = this.actor(userId);
    const proof = command.meaning ? proofWithoutSession(actor) : null;
    return execute({ database: this.database, clock: this.clock }, command, input, actor, null, proof);
  }

  import(userId: string, at: Instant, files: Partial<Record<DepartmentFile, string>>) {
    return this.does(userId, at, importDepartment, { files });
  }

  /** Every room and spare workstation with its evidence, as it is at that moment. */
  holders(at: Instant): Promise<Holder[]> {
    return this.read(async (tx) => {
      const { rooms, workstations } = await everyHolder(tx, this.scope.facilityId);
      return loadEvidence(tx, this.frame, rooms, workstations, at);
    });
  }

  /** One room or spare with its evidence. */
  async holder(of: Holder, at: Instant): Promise<Holder> {
    const found = await this.read((tx) =>
      loadEvidence(tx, this.frame, of.kind === "room" ? [of.id] : [], of.workstationId ? [of.workstationId] : [], at),
    );
    const same = found.find(({ id }) => id === of.id);
    if (!same) throw new Error(`${this.name}: ${of.kind} ${of.id} is gone`);
    return same;
  }

  /** What is open at that moment, whether or not the clock's own changes have been stored by then. */
  async openWork(at: Instant): Promise<readonly OpenTask[]> {
    return (await this.read((tx) => openTasksAt(tx, this.frame, at))).tasks;
  }

  async tasksOf(holder: Holder, at: Instant): Promise<readonly OpenTask[]> {
    return (await this.read((tx) => openTasksAt(tx, this.frame, at, { holders: [holder.id] }))).tasks;
  }

  read<Value>(work: (tx: Tx, scope: Scope) => Promise<Value>): Promise<Value> {
    return this.database.inScope(this.scope, (tx) => work(tx, this.scope));
  }

  actor(userId: string): Actor {
    const person = this.people.get(userId);
    if (!person) throw new Error(`${this.name} has nobody with the user id ${userId}`);
    return {
      kind: "seed",
      personId: person.id,
      name: person.name,
      userId,
      roles: person.roles,
      organisationId: this.scope.organisationId,
      facility: this.frame.facility,
      facilities: [],
      sessionId: null,
    };
  }
}

const EXAMPLES = path.join(path.dirname(fileURLToPath(import.meta.url)), "..", "docs", "examples");

/** The files of an example department, as anybody would import them. */
export function exampleFiles(folder: string): Partial<Record<DepartmentFile, string>> {
  const names = readdirSync(path.join(EXAMPLES, folder)).filter((name) => name.endsWith(".csv"));
  return Object.fromEntries(
    names.map((name) => [name.slice(0, -4), readFileSync(path.join(EXAMPLES, folder, name), "utf8")]),
  );
}
