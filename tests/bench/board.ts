import { board } from "@/lib/schemas/board";
import { Client, type Load, type Reply } from "./load";
import { median } from "./measure";
import { type Line, perSecond } from "./report";

const WARM_MS = 1_500;
const ROUND_MS = 2_000;
const ROUNDS = 6;

/** The whole board against a route that does nothing, over HTTP, in turns, so that both meet the same machine. */
export async function measureBoard(url: string, cookie: string, rooms: number): Promise<Line[]> {
  const client = new Client(url);
  const empty: Load = { path: "/api/v1/health", headers: { cookie } };
  const whole: Load = { path: "/api/v1/board", headers: { cookie } };
  const first = readable(await client.get(whole), rooms);
  const again: Load = { ...whole, headers: { cookie, "if-none-match": first.etag } };
  const loads = [
    { load: empty, examine: (reply: Reply) => void JSON.parse(expect(reply, 200).body.toString("utf8")) },
    { load: whole, examine: (reply: Reply) => sameAs(first, expect(reply, 200), rooms) },
    { load: again, examine: (reply: Reply) => void expect(reply, 304) },
  ];
  const rates = loads.map((): number[] => []);
  try {
    for (const { load, examine } of loads) await client.press(load, WARM_MS, examine);
    for (let round = 0; round < ROUNDS; round += 1)
      for (const [index, { load, examine }] of loads.entries())
        rates[index]?.push(await client.press(load, ROUND_MS, examine));
  } finally {
    client.close();
  }
  return linesOf(rates, rooms, first.body.length);
}

function linesOf([empty = [], whole = [], again = []]: number[][], rooms: number, bytes: number): Line[] {
  const ratio = (rates: number[]) => median(rates.map((rate, round) => rate / (empty[round] ?? Number.NaN)));
  return [
    { what: "an empty route (GET /api/v1/health)", value: perSecond(median(empty)) },
    {
      what: `GET /api/v1/board, ${rooms} rooms, ${Math.round(bytes / 1000)} kB`,
      value: perSecond(median(whole)),
      ratio: { value: ratio(whole), to: "an empty route" },
      target: { atLeast: 0.5, unit: "x", reached: ratio(whole) },
    },
    {
      what: "the same with If-None-Match (304)",
      value: perSecond(median(again)),
      ratio: { value: ratio(again), to: "an empty route" },
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
