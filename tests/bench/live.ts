import http from "node:http";
import { setTimeout as pause } from "node:timers/promises";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { type RowsEvent, rowsEvent } from "@/lib/schemas/live";
import type { BenchDepartment } from "./department";
import { Samples } from "./measure";
import { type Line, milliseconds } from "./report";

const COMMANDS = 60;
const BETWEEN_MS = 60;
const SEEN_WITHIN_MS = 20_000;

/** A board at the end of a stream; tells when it has heard of a history entry, with the rows that changed. */
class LiveBoard {
  #buffer = "";
  #request: http.ClientRequest | undefined;
  constructor(private readonly heard: (event: RowsEvent) => void) {}

  open(url: string, cookie: string): Promise<void> {
    return new Promise((resolve, reject) => {
      this.#request = http.get(`${url}/api/v1/events`, { agent: false, headers: { cookie } }, (response) => {
        if (response.statusCode !== 200) reject(new Error(`the stream answered ${response.statusCode}`));
        response.setEncoding("utf8");
        response.on("data", (text: string) => this.#take(text, resolve));
      });
      this.#request.on("error", reject);
    });
  }

  #take(text: string, onHello: () => void): void {
    this.#buffer += text;
    const blocks = this.#buffer.split("\n\n");
    this.#buffer = blocks.pop() ?? "";
    for (const block of blocks) {
      const name = /^event: (\w+)$/m.exec(block)?.[1];
      const data = /^data: (.*)$/m.exec(block)?.[1];
      if (name === "hello") onHello();
      if (name === "rows" && data) this.heard(JSON.parse(data) as RowsEvent);
      if (name === "ended") throw new Error(`a stream ended: ${data}`);
    }
  }

  close(): void {
    this.#request?.removeAllListeners("error").on("error", () => undefined);
    this.#request?.destroy();
  }
}

/** One command and every board that must show it. */
class Sighting {
  readonly sent = performance.now();
  acknowledged = Number.NaN;
  sequence = Number.POSITIVE_INFINITY;
  readonly #seen: number[] = [];
  readonly #early: { sequence: number; at: number }[] = [];

  see({ sequence }: RowsEvent): void {
    const at = performance.now();
    if (sequence >= this.sequence) this.#seen.push(at);
    else this.#early.push({ sequence, at });
  }

  /** Notices may overtake the reply: what came before is counted now that the entry's number is known. */
  acknowledge(sequence: number): void {
    this.acknowledged = performance.now();
    this.sequence = sequence;
    this.#seen.push(...this.#early.filter((one) => one.sequence >= sequence).map(({ at }) => at));
  }

  get seen(): readonly number[] {
    return this.#seen;
  }
}

/** From the commit to the changed row on every open board, across the instances. */
export async function measureLive(
  department: BenchDepartment,
  streams: readonly { readonly url: string; readonly cookie: string }[],
  instances: number,
): Promise<Line[]> {
  let current: Sighting | null = null;
  let unreadable = "";
  const boards = streams.map(
    () =>
      new LiveBoard((event) => {
        if (!rowsEvent.safeParse(event).success) unreadable = JSON.stringify(event).slice(0, 300);
        current?.see(event);
      }),
  );
  const fromCommit = new Samples();
  const fromSending = new Samples();
  try {
    await Promise.all(
      boards.map((board, index) => board.open(streams[index]?.url ?? "", streams[index]?.cookie ?? "")),
    );
    for (const [index, command] of changes(department).entries()) {
      current = new Sighting();
      current.acknowledge(await command());
      await allSeen(current, boards.length);
      // The first few meet cold code in the servers.
      if (index >= 6) for (const at of current.seen) keep(current, at, fromCommit, fromSending);
      await pause(BETWEEN_MS);
    }
  } finally {
    for (const board of boards) board.close();
  }
  if (unreadable) throw new Error(`an event is not what the schema says: ${unreadable}`);
  return linesOf(fromCommit, fromSending, boards.length, instances);
}

function keep({ sent, acknowledged }: Sighting, at: number, fromCommit: Samples, fromSending: Samples): void {
  fromCommit.add(Math.max(0, at - acknowledged));
  fromSending.add(at - sent);
}

/** Holds and lifts, one room after the other: each changes the state of a room. */
function changes({ rooms, must, technician }: BenchDepartment): (() => Promise<number>)[] {
  return rooms.slice(0, COMMANDS / 2).flatMap((room) => {
    const workstationId = room.workstation?.id ?? "";
    let holdId = "";
    const hold = async () => {
      const held = await must(holdWorkstation, { workstationId, reason: "measuring" }, technician);
      holdId = held.reply.holdId;
      return held.sequence;
    };
    const lift = async () => (await must(liftHold, { workstationId, holdId, reason: "measured" }, technician)).sequence;
    return [hold, lift];
  });
}

async function allSeen(sighting: Sighting, boards: number): Promise<void> {
  const until = performance.now() + SEEN_WITHIN_MS;
  while (sighting.seen.length < boards) {
    if (performance.now() > until) throw new Error(`only ${sighting.seen.length} of ${boards} boards saw a change`);
    await pause(2);
  }
}

function linesOf(fromCommit: Samples, fromSending: Samples, boards: number, instances: number): Line[] {
  const text = ({ p50, p95 }: Samples) => `p50 ${milliseconds(p50)}, p95 ${milliseconds(p95)}`;
  return [
    {
      what: `commit acknowledged -> row seen on ${boards} live boards across ${instances} instances (${fromCommit.count} sightings)`,
      value: text(fromCommit),
      target: { atMost: 250, unit: "ms at p95", reached: fromCommit.p95 },
    },
    { what: "the same from the moment the command was sent", value: text(fromSending) },
  ];
}
