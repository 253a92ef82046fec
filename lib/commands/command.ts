import type { ZodType } from "zod";
import type { Actor } from "@/lib/auth/actor";
import type { Outcome } from "@/lib/domain/outcome";
import type { CommandName } from "@/lib/domain/permission";
import type { Meaning, Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import type { Begun, Locks } from "@/lib/storage/command-frame";
import type { Holder } from "@/lib/storage/evidence";
import type { Instant } from "@/lib/units/time";

/** Every way a well-formed command can be refused. Closed, so that a new refusal does not compile until the edge knows its status. */
export type Refusal =
  | "not-found"
  | "not-allowed"
  | "moved-on"
  | "already-done"
  | "taken"
  | "not-yours"
  | "invalid"
  | "does-not-fit"
  | "key-reused"
  | "sign-in-required"
  | "signature-required"
  | "signature-wrong"
  | "too-many"
  | "locked";

/** What a command knows besides its input: who, in which role, when, and the rows it locked. */
export interface Context {
  readonly actor: Actor;
  readonly role: Role;
  readonly now: Instant;
  readonly begun: Begun;
  readonly newId: () => string;
  readonly digest: (text: string) => string;
}

/** What history says of it: one sentence, further lines, and the data behind them. */
export interface HistoryNote {
  readonly text: string;
  readonly details?: readonly string[];
  readonly data?: Readonly<Record<string, unknown>>;
}

export interface Applied<Reply> {
  readonly reply: Reply;
  readonly note: HistoryNote;
  /** Of a signature: exactly what was on the screen and is signed. Its digest goes into the record; the input's, if not given. */
  readonly shown?: string;
  /** What the command changed of the facility itself: everything is judged by that, and no longer by what it began with. */
  readonly frame?: Partial<Pick<Begun, "facility" | "settings" | "settingsVersion">>;
  /** Rooms and workstations that the command made, and that nobody could lock before. */
  readonly made?: { readonly rooms?: readonly string[]; readonly workstations?: readonly string[] };
  /** Boards are read again as a whole, as when a room has gone. */
  readonly wholeBoard?: boolean;
}

/**
 * One thing a person may do. The runner owns transaction, locks, permission, receipt, judging, history and notice;
 * a command says what it locks, what it reads, what it decides (pure) and which rows follow.
 */
export interface CommandDefinition<In, Loaded, Decided, Reply> {
  readonly name: CommandName;
  /** Given for a command that is a signature: what it says. Then it runs only with a proof of who signs (lib/auth/signing.ts). */
  readonly meaning?: Meaning;
  readonly summary: string;
  readonly schema: ZodType<In>;
  readonly reply: ZodType<Reply>;
  readonly locks: (input: In) => Locks;
  readonly load: (tx: Tx, input: In, context: Context, holders: () => Promise<readonly Holder[]>) => Promise<Loaded>;
  readonly decide: (loaded: Loaded, input: In, context: Context) => Outcome<Decided, Refusal>;
  readonly apply: (
    tx: Tx,
    decided: Decided,
    input: In,
    context: Context,
  ) => Promise<Applied<Reply> | Extract<Outcome<never, Refusal>, { ok: false }>>;
}

/** A command with its inner types closed over: what the list, the routes and the API description hold. */
export interface Command<In = never, Reply = unknown> {
  readonly name: CommandName;
  readonly meaning?: Meaning;
  readonly summary: string;
  readonly schema: ZodType;
  readonly replySchema: ZodType;
  readonly locks: (input: In) => Locks;
  readonly run: (
    tx: Tx,
    input: In,
    context: Context,
    holders: () => Promise<readonly Holder[]>,
  ) => Promise<Outcome<Applied<Reply>, Refusal>>;
}

export function command<In, Loaded, Decided, Reply>(
  definition: CommandDefinition<In, Loaded, Decided, Reply>,
): Command<In, Reply> {
  const { name, summary, schema, locks, load, decide, apply } = definition;
  return {
    name,
    ...(definition.meaning ? { meaning: definition.meaning } : {}),
    summary,
    schema,
    replySchema: definition.reply,
    locks,
    run: async (tx, input, context, holders) => {
      const outcome = decide(await load(tx, input, context, holders), input, context);
      if (!outcome.ok) return outcome;
      const applied = await apply(tx, outcome.value, input, context);
      return "ok" in applied ? applied : { ok: true, value: applied };
    },
  };
}
