import type { MessagePort, Outgoing } from "@/lib/domain/outgoing";
import { NotSent } from "@/lib/domain/outgoing";
import type { Database, Scope } from "@/lib/storage/client";
import { facilityFrame } from "@/lib/storage/facility-frame";
import { type DueDelivery, deliveryFailed, deliverySent, takeDue } from "@/lib/storage/messages";
import { facilityScopes } from "@/lib/storage/sessions";
import { type Instant, later, MINUTE, timestampOf } from "@/lib/units/time";

export interface Sending {
  readonly database: Database;
  readonly now: () => Instant;
  /** Null where this server was given nothing to send by. */
  readonly ports: Readonly<Record<DueDelivery["kind"], MessagePort | null>>;
  /** Where people find this server. */
  readonly publicUrl: string;
}

/** Longer than any attempt takes: who took a delivery and died is followed by somebody else after that. */
const SECOND = 1_000;
const LEASE = 2 * MINUTE;
const AT_ONCE = 20;
/** From one attempt to the next; after the last one it is given up. Own choice, no source. */
const WAITS = [15 * SECOND, 30 * SECOND, MINUTE, 2 * MINUTE, 5 * MINUTE, 10 * MINUTE, 30 * MINUTE] as const;

/** Sends what is due in every facility; several senders may do this at once. Returns how many attempts were made. */
export async function sendDue(sending: Sending): Promise<number> {
  let attempts = 0;
  for (const scope of await facilityScopes(sending.database)) attempts += await sendIn(sending, scope);
  return attempts;
}

async function sendIn(sending: Sending, scope: Scope): Promise<number> {
  const { database, now } = sending;
  const { facilityId } = scope;
  const taken = await database.inScope(scope, async (tx) => {
    const due = await takeDue(tx, facilityId, now(), later(now(), LEASE), AT_ONCE);
    return due.length === 0 ? null : { due, facility: (await facilityFrame(tx, scope)).facility.name };
  });
  if (!taken) return 0;
  await Promise.all(taken.due.map((delivery) => sendOne(sending, scope, delivery, taken.facility)));
  return taken.due.length;
}

async function sendOne(sending: Sending, scope: Scope, delivery: DueDelivery, facility: string): Promise<void> {
  const { database, now, ports } = sending;
  try {
    const port = ports[delivery.kind];
    if (!port) throw new NotSent(NO_PORT[delivery.kind]);
    await port.send(outgoing(sending, delivery, facility, now()));
  } catch (error) {
    const { next, problem } = afterFailure(delivery.attempts, error, now());
    await database.inScope(scope, (tx) => deliveryFailed(tx, scope.facilityId, delivery.id, next, problem));
    return;
  }
  await database.inScope(scope, (tx) => deliverySent(tx, scope.facilityId, delivery.id, now()));
}

const NO_PORT = {
  mail: "this server was given no mail server (YOKEBOARD_SMTP_URL and YOKEBOARD_MAIL_FROM)",
  push: "this server has no secret to make its push key from (NEXTAUTH_SECRET)",
  webhook: "this server has no secret to sign with (NEXTAUTH_SECRET)",
} as const;

function afterFailure(attempts: number, error: unknown, now: Instant): { next: Instant | null; problem: string } {
  // Whatever else it was may hold an address or a password: only what was written for people is kept.
  const problem = error instanceof NotSent ? error.message : "it could not be sent";
  const wait = WAITS[attempts - 1];
  const ends = wait === undefined || (error instanceof NotSent && error.permanent);
  return { next: ends ? null : later(now, wait), problem };
}

const outgoing = (
  { publicUrl }: Sending,
  { id, channelId, address, title, body, path, messageKind, at }: DueDelivery,
  facility: string,
  now: Instant,
): Outgoing => ({
  id,
  facility,
  channelId,
  address,
  kind: messageKind,
  title,
  body,
  link: new URL(path, publicUrl).href,
  at,
  sentAt: timestampOf(now),
});
