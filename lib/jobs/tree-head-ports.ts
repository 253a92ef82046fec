import { appendFile, mkdir } from "node:fs/promises";
import path from "node:path";
import type { SignedHead } from "@/lib/domain/history/model";

/**
 * Where a signed tree head goes so that it is kept by somebody else: a promise that nobody holds can be taken back. `send` throws when
 * it did not arrive; it is tried again. Another way (mail, for one) is another of these, added to the list of `startTreeHeads`.
 */
export interface HeadPort {
  /** Kept with the head once it was sent: never change it. */
  readonly name: string;
  send(head: SignedHead): Promise<void>;
}

const PATIENCE_MS = 10_000;

/** One line a head, in one file a facility: for a disk that the database's administrators do not write to. */
export const filePort = (folder: string): HeadPort => ({
  name: "file",
  send: async (head) => {
    await mkdir(folder, { recursive: true });
    await appendFile(path.join(folder, `${head.facility}.heads.jsonl`), `${JSON.stringify(head)}\n`, "utf8");
  },
});

/** A POST of the head as JSON; anything but a 2xx is not sent. */
export const webhookPort = (address: string): HeadPort => ({
  name: "webhook",
  send: async (head) => {
    const response = await fetch(address, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(head),
      redirect: "error",
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
    if (!response.ok) throw new Error(`${new URL(address).host} answered ${response.status}`);
  },
});

/** The ports that the environment asks for. */
export function configuredPorts(env: Readonly<Record<string, string | undefined>> = process.env): HeadPort[] {
  const { YOKEBOARD_HEADS_FOLDER: folder, YOKEBOARD_HEADS_URL: address } = env;
  return [...(folder ? [filePort(folder)] : []), ...(address ? [webhookPort(address)] : [])];
}
