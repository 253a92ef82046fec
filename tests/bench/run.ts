import { rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { discardDataFolder } from "@/lib/cli/embedded/discard";
import { startEmbedded } from "@/lib/cli/embedded/start";
import { ensureBuilt } from "@/lib/cli/ensure-built";
import { runMain } from "@/lib/cli/main";
import { Problem } from "@/lib/cli/problem";
import { stopOnSignal } from "@/lib/cli/until-stopped";
import { signInByHttp } from "@/tests/support/sign-in";
import { measureBoard } from "./board";
import { measureCommands } from "./commands";
import { type BenchDepartment, makeDepartment } from "./department";
import { PASSWORD, VIEWER } from "./department-files";
import { measureGas } from "./gas";
import { type Instance, startInstance } from "./instance";
import { measureJudging } from "./judging";
import { measureLive } from "./live";
import { measurePlan } from "./plan";
import { printSection } from "./report";

/** As large as one hospital is expected to be. */
const ROOMS = 200;
const CHECKED_ROOMS = 100;
const BOARDS = 200;
/** A session may hold eight streams; a browser has one. */
const STREAMS_A_SESSION = 8;

const SECTIONS = ["gas", "plan", "commands", "judging", "board", "live"] as const;
type Section = (typeof SECTIONS)[number];

const started = performance.now();
const folder = path.join(os.tmpdir(), `bench-yokeboard-${process.pid}`);
const closing: (() => Promise<void> | void)[] = [];

async function closeAll(): Promise<void> {
  for (const close of closing.splice(0).reverse()) await close();
}

const say = (line: string) => console.log(line);

/** All sections, or those named after `npm run bench --`. */
function sectionsAsked(): ReadonlySet<Section> {
  const named = process.argv.slice(2);
  const unknown = named.filter((name) => !(SECTIONS as readonly string[]).includes(name));
  if (unknown.length > 0)
    throw new Problem(`There is no section ${unknown.join(", ")}; there are ${SECTIONS.join(", ")}.`);
  return new Set(named.length === 0 ? SECTIONS : (named as Section[]));
}

/** Every figure is a ratio of two things measured in this run on this machine, or stands beside its target. */
async function run(asked: ReadonlySet<Section>): Promise<void> {
  if (asked.has("gas")) printSection("Gas", await measureGas());
  if (asked.has("plan")) printSection("Order of the work", await measurePlan());
  if ([...asked].some((section) => section !== "gas" && section !== "plan")) await onDepartment(asked);
  say(
    `\n${Math.round((performance.now() - started) / 1000)} s on ${os.cpus().length} processors, Node ${process.versions.node}.`,
  );
}

async function onDepartment(asked: ReadonlySet<Section>): Promise<void> {
  const http = asked.has("board") || asked.has("live");
  if (http) await ensureBuilt(say);
  // The disk is waited for, as in earnest: a commit here is one that survives a power cut.
  const cluster = await startEmbedded({ folder });
  closing.push(async () => {
    await cluster.stop();
    await discardDataFolder(folder);
    rmSync(folder, { recursive: true, force: true });
  });
  const viewers = BOARDS / STREAMS_A_SESSION;
  say(`Making a department of ${ROOMS} rooms ...`);
  const department = await makeDepartment(cluster, ROOMS, viewers);
  closing.push(() => department.database.close());
  if (asked.has("commands")) printSection("Commands", await measureCommands(department, cluster, CHECKED_ROOMS));
  if (asked.has("judging")) printSection("Judging", await measureJudging(department));
  if (http) await overHttp(department, [await instance(cluster), await instance(cluster)], viewers, asked);
}

async function instance(cluster: { appUrl: string; ownerUrl: string }): Promise<Instance> {
  const one = await startInstance(cluster);
  closing.push(() => one.stop());
  return one;
}

async function overHttp(
  department: BenchDepartment,
  instances: readonly Instance[],
  viewers: number,
  asked: ReadonlySet<Section>,
): Promise<void> {
  const [first] = instances;
  if (!first) throw new Error("no instance");
  const cookies: string[] = [];
  for (let n = 0; n < viewers; n += 1) cookies.push(await signInByHttp(first.url, VIEWER(n), PASSWORD));
  if (asked.has("board")) printSection("Board", await measureBoard(first, cookies[0] ?? "", ROOMS));
  if (!asked.has("live")) return;
  const streams = Array.from({ length: BOARDS }, (_, n) => ({
    url: instances[n % instances.length]?.url ?? first.url,
    cookie: cookies[Math.floor(n / STREAMS_A_SESSION)] ?? "",
  }));
  printSection("Live", await measureLive(department, streams, instances.length));
}

runMain(async () => {
  stopOnSignal(closeAll);
  try {
    await run(sectionsAsked());
  } finally {
    await closeAll();
  }
});
