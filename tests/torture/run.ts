import { rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { parseArgs } from "node:util";
import { discardDataFolder } from "@/lib/cli/embedded/discard";
import { type Embedded, startEmbedded } from "@/lib/cli/embedded/start";
import { ensureBuilt } from "@/lib/cli/ensure-built";
import { runMain } from "@/lib/cli/main";
import { Problem } from "@/lib/cli/problem";
import { progressLine } from "@/lib/cli/progress";
import { stopOnSignal } from "@/lib/cli/until-stopped";
import { makeDepartment } from "@/tests/bench/department";
import { printSection } from "@/tests/bench/report";
import { fuzz } from "./fuzz";
import { twoInstances } from "./instances";
import { killApplication, killDatabase, ofDatabase, sameAgain } from "./kills";
import { MortalServer } from "./mortal-server";
import { tamper } from "./tamper";

const HELP = `npm run torture -- [sections] [--part 0.1]    faults and attacks on a department of its own, on the loopback alone; it ends by itself

  sections   tamper, requests, instances, application, database; all of them if none is named
  --part N   only this part of each count, above 0 and at most 1
  --seed N   of the random changes, a whole number`;

const SECTIONS = ["tamper", "requests", "instances", "application", "database"] as const;
type Section = (typeof SECTIONS)[number];
const FULL = { tamper: 1_000, requests: 10_000, instances: 2_000, application: 200, database: 20 } as const;
const ROOMS = 20;

const say = (line: string) => console.log(line);

function given(): { sections: ReadonlySet<Section>; times: (section: Section) => number; seed: number } {
  const options = { part: { type: "string" }, seed: { type: "string" } } as const;
  const { values, positionals } = parseArgs({ options, allowPositionals: true });
  const unknown = positionals.filter((name) => !(SECTIONS as readonly string[]).includes(name));
  if (unknown.length > 0) throw new Problem(`There is no section ${unknown.join(", ")}.\n\n${HELP}`);
  const part = Number(values.part ?? 1);
  if (!(part > 0 && part <= 1))
    throw new Problem(`--part ${values.part} is not a number above 0 and at most 1.\n\n${HELP}`);
  const seed = Number(values.seed ?? 1);
  if (!Number.isSafeInteger(seed)) throw new Problem(`--seed ${values.seed} is not a whole number.\n\n${HELP}`);
  return {
    sections: new Set(positionals.length === 0 ? SECTIONS : (positionals as Section[])),
    times: (section) => Math.ceil(FULL[section] * part),
    seed,
  };
}

const folder = path.join(os.tmpdir(), `torture-yokeboard-${process.pid}`);
let cluster: Embedded | undefined;

async function run(): Promise<void> {
  const { sections, times, seed } = given();
  if (SECTIONS.some((section) => section !== "tamper" && sections.has(section))) await ensureBuilt(say);
  const started = performance.now();
  // The disk is waited for, as in earnest: what is acknowledged has to survive.
  cluster = await startEmbedded({ folder });
  const department = await makeDepartment(cluster, ROOMS, 1);
  try {
    if (sections.has("requests")) {
      const server = await MortalServer.start(cluster);
      try {
        const tell = progressLine(say, "Attacking");
        printSection(
          "Hostile requests",
          await fuzz(department, server, ofDatabase(cluster), times("requests"), seed, tell),
        );
      } finally {
        await server.stop();
      }
    }
    if (sections.has("instances"))
      printSection("Two applications", await twoInstances(department, cluster, times("instances")));
    const tell = progressLine(say, "Killing");
    if (sections.has("tamper"))
      printSection("Changes in the history", await tamper(department, ofDatabase(cluster), times("tamper"), seed));
    if (sections.has("application"))
      printSection("The application dies", await killApplication(department, cluster, times("application"), tell));
    if (sections.has("database")) {
      const killed = await killDatabase(department, sameAgain(folder, cluster), cluster, times("database"), tell);
      cluster = killed.cluster;
      printSection("PostgreSQL dies", killed.lines);
    }
  } finally {
    await department.database.close();
  }
  say(
    `\n${Math.round((performance.now() - started) / 1000)} s on ${os.cpus().length} processors, Node ${process.versions.node}.`,
  );
}

async function clean(): Promise<void> {
  await cluster?.stop();
  await discardDataFolder(folder);
  rmSync(folder, { recursive: true, force: true });
}

runMain(async () => {
  stopOnSignal(clean);
  try {
    await run();
  } finally {
    await clean();
  }
});
