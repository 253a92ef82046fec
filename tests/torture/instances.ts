import http from "node:http";
import { setTimeout as pause } from "node:timers/promises";
import type { Embedded } from "@/lib/cli/embedded/start";
import { type RowsEvent, rowsEvent } from "@/lib/schemas/live";
import type { BenchDepartment } from "@/tests/bench/department";
import { PASSWORD, VIEWER } from "@/tests/bench/department-files";
import type { Line } from "@/tests/bench/report";
import { ask } from "@/tests/support/http";
import { signInByHttp } from "@/tests/support/sign-in";
import { lookAfterwards } from "./aftermath";
import { ofDatabase } from "./kills";
import { MortalServer } from "./mortal-server";
import { Writers } from "./writers";

const CLIENTS = 8;
const HEARD_WITHIN_MS = 20_000;

/** What one open board hears of, in the order in which it hears it. */
class Listener {
  readonly heard: number[] = [];
  #request: http.ClientRequest | undefined;
  #rest = "";

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

  close(): void {
    this.#request?.removeAllListeners("error").on("error", () => undefined);
    this.#request?.destroy();
  }

  #take(text: string, onHello: () => void): void {
    const blocks = (this.#rest + text).split("\n\n");
    this.#rest = blocks.pop() ?? "";
    for (const block of blocks) {
      const name = /^event: (\w+)$/m.exec(block)?.[1];
      const data = /^data: (.*)$/m.exec(block)?.[1];
      if (name === "hello") onHello();
      if (name === "rows" && data) this.#note(rowsEvent.parse(JSON.parse(data)));
    }
  }

  #note({ sequence }: RowsEvent): void {
    this.heard.push(sequence);
  }
}

/** Two applications on one database, clients at both: one order for all, and the open boards of both hear of everything in it. */
export async function twoInstances(department: BenchDepartment, cluster: Embedded, answers: number): Promise<Line[]> {
  const servers = [await MortalServer.start(cluster), await MortalServer.start(cluster)];
  const listeners = servers.map(() => new Listener());
  try {
    const writers = await Writers.at(department, servers[0]?.url ?? "", CLIENTS, "two");
    const cookies: string[] = [];
    for (const [place, server] of servers.entries()) {
      const cookie = await signInByHttp(server.url, VIEWER(0), PASSWORD);
      cookies.push(cookie);
      await listeners[place]?.open(server.url, cookie);
    }
    writers.begin((place) => servers[place % servers.length]?.url ?? "");
    await writers.untilMore(answers);
    await writers.stop();
    const wrong = await lookAfterwards(ofDatabase(cluster), writers, "two");
    const boards = await Promise.all(servers.map(async ({ url }, place) => boardOf(url, cookies[place] ?? "")));
    const last = boards[0]?.sequence ?? 0;
    await untilHeard(listeners, last);
    for (const [place, { heard }] of listeners.entries()) {
      if (heard.some((sequence, at) => at > 0 && sequence <= (heard[at - 1] ?? 0)))
        wrong.push(`board ${place + 1} heard out of order`);
      if (heard.at(-1) !== last)
        wrong.push(`board ${place + 1} heard up to ${heard.at(-1)}, and the record is at ${last}`);
    }
    if (boards[0]?.text !== boards[1]?.text) wrong.push("the two applications show different boards");
    return [
      {
        what: "Two applications on one database, an open board at each",
        value: `${CLIENTS} clients, ${writers.acknowledged.length} answers, ${listeners.map(({ heard }) => heard.length).join(" and ")} changes heard`,
      },
      {
        what: "Out of order, missed, lost, there twice, or different on the two",
        value: wrong.length === 0 ? "none" : wrong.join("; "),
        target: { atMost: 0, unit: "found", reached: wrong.length },
      },
    ];
  } finally {
    for (const listener of listeners) listener.close();
    for (const server of servers) await server.stop();
  }
}

async function untilHeard(listeners: readonly Listener[], sequence: number): Promise<void> {
  const until = performance.now() + HEARD_WITHIN_MS;
  while (listeners.some(({ heard }) => heard.at(-1) !== sequence) && performance.now() < until) await pause(20);
}

async function boardOf(url: string, cookie: string): Promise<{ sequence: number; text: string }> {
  const { body } = await ask(`${url}/api/v1/board`, { headers: { Cookie: cookie } });
  const { sequence, rooms } = JSON.parse(body) as { sequence: number; rooms: unknown };
  return { sequence, text: JSON.stringify(rooms) };
}
