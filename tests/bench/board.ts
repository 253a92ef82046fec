import { board } from "@/lib/schemas/board";
import type { Instance } from "./instance";
import { Client, type Load, type Reply } from "./load";
import { median } from "./measure";
import { type Line, milliseconds, perSecond } from "./report";

const WARM_MS = 1_500;
const ROUND_MS = 2_000;
const ROUNDS = 6;
const MOST_RENEWED = 200;

/** The whole board against a route that does nothing, over HTTP, in turns, so that both meet the same machine. */
export async function measureBoard(instance: Instance, cookie: string, rooms: number): Promise<Line[]> {
  const client = new Client(instance.url);
  const empty: Load = { path: "/api/v1/health", headers: { cookie } };
  const whole: Load = { path: "/api/v1/board", headers: { cookie } };
  const first = readable(await client.get(whole), rooms);
  // A row may turn over by the clock meanwhile: then the whole board comes once, with its new tag.
  let { etag } = first;
  let renewed = 0;
  const again: Load = {
    ...whole,
    get headers() {
      return { cookie, "if-none-match": etag };
    },
  };
  const unchanged = (reply: Reply) => {
    if (reply.status === 304) return;
    ({ etag } = readable(reply, rooms));
    renewed += 1;
    if (renewed > MOST_RENEWED) throw new Error(`${renewed} boards were sent again although hardly anything changed`);
  };
  const loads = [
    { load: empty, examine: (reply: Reply) => void JSON.parse(expect(reply, 200).body.toString("utf8")) },
    { load: whole, examine: (reply: Reply) => sameAs(first, expect(reply, 200), rooms) },
    { load: again, examine: unchanged },
  ];
  const rounds = loads.map((): Round[] => []);
  try {
    for (const { load, examine } of loads) await client.press(load, WARM_MS, examine);
    for (let round = 0; round < ROUNDS; round += 1)
      for (const [index, { load, examine }] of loads.entries()) {
        const before = instance.processorMs() ?? 0;
        const { count, ratePerS } = await client.press(load, ROUND_MS, examine);
        rounds[index]?.push({ ratePerS, processorMs: ((instance.processorMs() ?? 0) - before) / count });
      }
  } finally {
    client.close();
  }
  return linesOf(rounds, rooms, first.body.length);
}

interface Round {
  readonly ratePerS: number;
  /** The server's own, for one request. */
  readonly processorMs: number;
}

function linesOf([empty = [], whole = [], again = []]: Round[][], rooms: number, bytes: number): Line[] {
  const rate = (rounds: readonly Round[]) => median(rounds.map(({ ratePerS }) => ratePerS));
  const ratio = (rounds: readonly Round[]) =>
    median(rounds.map(({ ratePerS }, round) => ratePerS / (empty[round]?.ratePerS ?? Number.NaN)));
  const processor = (rounds: readonly Round[]) => median(rounds.map(({ processorMs }) => processorMs));
  const value = (rounds: readonly Round[]) =>
    `${perSecond(rate(rounds))}, ${milliseconds(processor(rounds))} of the server's processor time each`;
  return [
    { what: "an empty route (GET /api/v1/health)", value: value(empty) },
    {
      what: `GET /api/v1/board, ${rooms} rooms, ${Math.round(bytes / 1000)} kB`,
      value: value(whole),
      ratio: { value: ratio(whole), to: "an empty route's requests/s" },
      target: { atLeast: 0.5, unit: "x", reached: ratio(whole) },
    },
    {
      what: "the same with If-None-Match (304)",
      value: value(again),
      ratio: { value: ratio(again), to: "an empty route's requests/s" },
    },
  ];
}

function expect(reply: Reply, status: number): Reply {
  if (reply.status !== status) throw new Error(`status ${reply.status} instead of ${status}`);
  return reply;
}

/** A board by its schema, with all its rooms. */
function readable(reply: Reply, rooms: number): Reply {
  const read = board.parse(JSON.parse(expect(reply, 200).body.toString("utf8")));
  if (read.rooms.length !== rooms) throw new Error(`the board shows ${read.rooms.length} rooms instead of ${rooms}`);
  return reply;
}

/** Byte for byte the one that was read by the schema, which says as much as reading it again; any other is read. */
function sameAs(first: Reply, reply: Reply, rooms: number): void {
  if (!first.body.equals(reply.body)) readable(reply, rooms);
}
