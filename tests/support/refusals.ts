import { expect } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import type { Command, Refusal } from "@/lib/commands/command";
import { contentsOf } from "@/tests/support/postgres";
import type { SmallDepartment } from "@/tests/support/small-department";

export interface Expected {
  readonly refusal: Refusal;
  readonly message: RegExp;
  readonly field?: string;
}

/** A well-formed request that must be refused in these words, and leave everything as it was: not a row more, not a value changed. */
export async function expectRefused<In, Reply>(
  department: SmallDepartment,
  command: Command<In, Reply>,
  input: In,
  actor: Actor,
  { refusal, message, field }: Expected,
): Promise<void> {
  expect(command.schema.safeParse(input).error).toBeUndefined();
  const before = await contentsOf(department.appUrl, scopeOf(actor));
  const outcome = await department.run(command, input, actor, crypto.randomUUID());
  expect(outcome).toEqual({
    ok: false,
    refusal,
    message: expect.stringMatching(message),
    ...(field === undefined ? {} : { field }),
  });
  expect(await contentsOf(department.appUrl, scopeOf(actor))).toEqual(before);
}

/** A request that the schema refuses before any command sees it; the path of the first thing wrong, and its words. */
export function refusedBySchema(command: Command<never>, input: unknown): string {
  const issue = command.schema.safeParse(input).error?.issues[0];
  return issue ? `${issue.path.map(String).join(".")}: ${issue.message}` : "accepted";
}
