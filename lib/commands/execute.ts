import { createHash, randomUUID } from "node:crypto";
import canonicalize from "canonicalize";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import type { SigningProof } from "@/lib/auth/signing";
import type { Applied, Command, Context, Refusal } from "@/lib/commands/command";
import { judgeAndStore } from "@/lib/commands/judging";
import { rejudgeDue } from "@/lib/commands/rejudge";
import { type Outcome, refused } from "@/lib/domain/outcome";
import { actingRole, mayByToken } from "@/lib/domain/permission";
import { type Database, isWorthRetrying, type Tx } from "@/lib/storage/client";
import { type Begun, beginCommand, finishCommand, type NoticeBody } from "@/lib/storage/command-frame";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import { instant, timestampOf } from "@/lib/units/time";

export interface Clock {
  now(): number;
}

export interface Surroundings {
  readonly database: Database;
  readonly clock: Clock;
}

/** A replayed reply comes from the receipt: nothing was done again. */
export type Executed<Reply> = Outcome<
  { readonly reply: Reply; readonly replayed: boolean; readonly sequence: number | null },
  Refusal
>;

const TRIES = 4;
/** A notice must stay under PostgreSQL's 8,000 bytes; a wider change is announced as "all". */
const MOST_HOLDERS_NAMED = 60;

/**
 * The one way to write. In one transaction: settings for share, rows locked in one order, permission, receipt, decision, rows,
 * judgement of everything touched, history entry last, notice. A refusal changes nothing at all.
 */
export async function execute<In, Reply>(
  surroundings: Surroundings,
  command: Command<In, Reply>,
  input: In,
  actor: Actor,
  key: string | null = null,
  proof: SigningProof | null = null,
): Promise<Executed<Reply>> {
  const barred = barredFrom(command, actor, proof);
  if (barred) return barred;
  // Work that the clock has made is there for every reader; whoever takes it must find it stored, and whoever comes late, gone.
  if (command.locks(input).tasks) await rejudgeDue(surroundings.database, surroundings.clock, scopeOf(actor));
  for (let attempt = 1; ; attempt += 1) {
    try {
      // begin_command sets the scope itself, which saves every command a round trip.
      return await surroundings.database.withoutScope((tx) =>
        executeIn(tx, surroundings.clock, command, input, actor, key, proof),
      );
    } catch (error) {
      if (error instanceof Refused) return error.outcome as Executed<Reply>;
      if (attempt >= TRIES || !isWorthRetrying(error)) throw error;
    }
  }
}

/** Carries a refusal out of the transaction, so that whatever was begun is rolled back. */
class Refused extends Error {
  constructor(readonly outcome: Extract<Outcome<never, Refusal>, { ok: false }>) {
    super(outcome.message);
  }
}

async function executeIn<In, Reply>(
  tx: Tx,
  clock: Clock,
  command: Command<In, Reply>,
  input: In,
  actor: Actor,
  key: string | null,
  proof: SigningProof | null,
): Promise<Executed<Reply>> {
  const receiptKey = key === null ? null : `${actor.personId}:${key}`;
  const digest = sha256(`${command.name}\n${canonicalize(input) ?? ""}`);
  const begun = await beginCommand(tx, scopeOf(actor), actor.personId, command.locks(input), receiptKey);
  if (begun.receipt) return replay<Reply>(begun.receipt, digest);

  const role = begun.personActive ? actingRole(begun.roles, command.name) : null;
  if (!role)
    throw new Refused(
      refused("not-allowed", `${actor.name} may not ${command.name.replaceAll("-", " ")} in ${begun.facility.name}.`),
    );

  const context: Context = { actor, role, now: instant(clock.now()), begun, newId: randomUUID, digest: sha256 };
  const before = lazily(() => loadEvidence(tx, begun, begun.rooms, begun.workstations, context.now));
  const outcome = await command.run(tx, input, context, before);
  if (!outcome.ok) throw new Refused(outcome);

  const toJudge = afterwards(begun, outcome.value);
  const touched = await judgeAndStore(tx, toJudge, context.now, command.name, command.locks(input).everything ?? false);
  const sequence = await finishCommand(tx, begun.scope, {
    key: receiptKey,
    digest,
    reply: outcome.value.reply,
    at: context.now,
    entry: entryOf(
      command,
      outcome.value,
      context,
      touched,
      signatureOf(command, input, outcome.value, context, proof),
    ),
    notice: outcome.value.wholeBoard
      ? { command: command.name, holders: [], all: true }
      : noticeOf(command.name, touched),
  });
  return { ok: true, value: { reply: outcome.value.reply, replayed: false, sequence } };
}

/** What is judged once the command has been applied: its rows, those that it made, by the settings that it left. */
const afterwards = (begun: Begun, { frame, made }: Applied<unknown>): Begun => ({
  ...begun,
  ...frame,
  rooms: [...begun.rooms, ...(made?.rooms ?? [])],
  workstations: [...begun.workstations, ...(made?.workstations ?? [])],
});

function replay<Reply>(receipt: NonNullable<Begun["receipt"]>, digest: string): Executed<Reply> {
  if (receipt.digest !== digest)
    throw new Refused(
      refused("key-reused", "This Idempotency-Key was used for another request. Send a new key with a new request."),
    );
  return { ok: true, value: { reply: receipt.reply as Reply, replayed: true, sequence: null } };
}

/** A signature is its person's own act, with a proof; a token does no more than it was issued for. */
function barredFrom(command: Command<never>, actor: Actor, proof: SigningProof | null) {
  const { name, meaning } = command;
  if (actor.kind === "token" && !(actor.token?.commands.includes(name) && !meaning && mayByToken(name)))
    return refused("not-allowed", `The token ${actor.token?.name ?? ""} was not issued for ${name}.`);
  if (meaning && !proof)
    return refused("signature-required", "Give your PIN or your password to sign.", "signature.secret");
  if (proof && proof.personId !== actor.personId)
    return refused("not-allowed", "Nobody signs for somebody else.", "signature.userId");
  return null;
}

/** Name, meaning and time of a signature, what was given for it, and the digest of what was shown (after 21 CFR 11.50 and 11.70). */
function signatureOf<In>(
  command: Command<In>,
  input: In,
  { shown }: Applied<unknown>,
  { actor, now, digest }: Context,
  proof: SigningProof | null,
) {
  if (!command.meaning || !proof) return {};
  return {
    signature: {
      name: actor.name,
      meaning: command.meaning,
      at: timestampOf(now),
      components: [...proof.components],
      digest: digest(shown ?? canonicalize(input) ?? ""),
    },
  };
}

/** The canonical text (RFC 8785) that is hashed into the history. */
function entryOf(
  { name }: Command<never>,
  applied: Applied<unknown>,
  context: Context,
  touched: readonly Holder[],
  signature: Readonly<Record<string, unknown>>,
): string {
  const { actor, role } = context;
  const text = canonicalize({
    command: name,
    person: { id: actor.personId, name: actor.name },
    ...(actor.token ? { token: { id: actor.token.id, name: actor.token.name } } : {}),
    role,
    rooms: touched.flatMap(({ evidence }) =>
      evidence.room ? [{ id: evidence.room.id, name: evidence.room.name }] : [],
    ),
    workstations: touched.flatMap(({ evidence }) =>
      evidence.workstation ? [{ id: evidence.workstation.id, tag: evidence.workstation.tag }] : [],
    ),
    text: applied.note.text,
    details: applied.note.details ?? [],
    data: JSON.parse(JSON.stringify(applied.note.data ?? {})),
    ...signature,
  });
  if (text === undefined) throw new Error(`the history entry of ${name} has no canonical form`);
  return text;
}

function noticeOf(name: string, touched: readonly Holder[]): NoticeBody {
  const holders = touched.map(({ kind, id }) => ({ kind, id }));
  return holders.length > MOST_HOLDERS_NAMED ? { command: name, holders: [], all: true } : { command: name, holders };
}

function lazily<Value>(make: () => Promise<Value>): () => Promise<Value> {
  let made: Promise<Value> | null = null;
  return () => {
    made ??= make();
    return made;
  };
}

const sha256 = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");
