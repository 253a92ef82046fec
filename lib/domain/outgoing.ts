/** One message on its way to one address. The id is the delivery's: whoever gets it twice can tell. */
export interface Outgoing {
  readonly id: string;
  readonly facility: string;
  readonly channelId: string;
  readonly address: Readonly<Record<string, string>>;
  readonly kind: string;
  readonly title: string;
  readonly body: string;
  /** Where it is seen to, under the public address of the server. */
  readonly link: string;
  readonly at: string;
  /** Of this attempt: a receiver refuses what is old. */
  readonly sentAt: string;
}

/** `send` throws when it did not arrive. `permanent`: it never will. */
export interface MessagePort {
  send(message: Outgoing): Promise<void>;
}

export class NotSent extends Error {
  constructor(
    message: string,
    readonly permanent = false,
  ) {
    super(message);
  }
}

export const PATIENCE_MS = 10_000;
