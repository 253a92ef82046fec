import { setTimeout as pause } from "node:timers/promises";
import { type Embedded, startEmbedded } from "@/lib/cli/embedded/start";
import { dice } from "@/lib/domain/dice";
import type { BenchDepartment } from "@/tests/bench/department";
import type { Line } from "@/tests/bench/report";
import { lookAfterwards } from "./aftermath";
import { MortalServer } from "./mortal-server";
import { Writers } from "./writers";

const CLIENTS = 6;
const SEED = 20_260_304;
type Tell = (done: number, total: number, what: string) => void;

const lines = (what: string, kills: number, writers: Writers, wrong: readonly string[]): Line[] => [
  {
    what,
    value: `${kills} kills, ${CLIENTS} clients, ${writers.acknowledged.length} answers acknowledged, ${writers.unanswered} requests sent again`,
  },
  {
    what: "Acknowledged and lost, there twice, refused, or a record that does not fit",
    value: wrong.length === 0 ? "none" : wrong.join("; "),
    target: { atMost: 0, unit: "found", reached: wrong.length },
  },
];

/** kill -9 of the application in the middle of its writes, again and again. */
export async function killApplication(
  department: BenchDepartment,
  cluster: Embedded,
  kills: number,
  tell: Tell,
): Promise<Line[]> {
  const throws = dice(SEED);
  const server = await MortalServer.start(cluster);
  try {
    const writers = await Writers.at(department, server.url, CLIENTS, "app");
    writers.begin(() => server.url);
    for (let kill = 0; kill < kills; kill += 1) {
      tell(kill, kills, "the application");
      await writers.untilMore(3);
      await pause(throws.between(0, 60));
      await server.kill();
      await server.start();
    }
    await writers.untilMore(CLIENTS);
    await writers.stop();
    return lines(
      "kill -9 of the application",
      kills,
      writers,
      await lookAfterwards(ofDatabase(cluster), writers, "app"),
    );
  } finally {
    await server.stop();
  }
}

/** kill -9 of PostgreSQL while two applications write; they have to find their own way back. */
export async function killDatabase(
  department: BenchDepartment,
  start: () => Promise<Embedded>,
  first: Embedded,
  kills: number,
  tell: Tell,
): Promise<{ lines: Line[]; cluster: Embedded }> {
  const throws = dice(SEED);
  let cluster = first;
  const servers = [await MortalServer.start(cluster), await MortalServer.start(cluster)];
  try {
    const writers = await Writers.at(department, servers[0]?.url ?? "", CLIENTS, "db");
    writers.begin((place) => servers[place % servers.length]?.url ?? "");
    for (let kill = 0; kill < kills; kill += 1) {
      tell(kill, kills, "PostgreSQL");
      await writers.untilMore(20);
      await pause(throws.between(0, 200));
      process.kill(cluster.pid, "SIGKILL");
      await cluster.stop();
      cluster = await start();
    }
    await writers.untilMore(CLIENTS);
    await writers.stop();
    const wrong = await lookAfterwards(ofDatabase(cluster), writers, "db");
    return { lines: lines("kill -9 of PostgreSQL, two applications", kills, writers, wrong), cluster };
  } finally {
    for (const server of servers) await server.stop();
  }
}

/** The superuser's way into the department's database. */
export const ofDatabase = ({ superuserUrl, appUrl }: Embedded): string => {
  const url = new URL(superuserUrl);
  url.pathname = new URL(appUrl).pathname;
  return url.href;
};

export const sameAgain =
  (folder: string, { port }: Embedded) =>
  (): Promise<Embedded> =>
    startEmbedded({ folder, port });
