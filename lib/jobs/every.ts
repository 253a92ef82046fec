interface Shared {
  __yokeboardJobs?: Set<string>;
  __yokeboardClosers?: Set<() => Promise<void>>;
}
/** On globalThis, because a page and a route may see two instances of one module, and a job runs once in a process. */
const shared = globalThis as Shared;

/**
 * Runs a job again and again in this process, never over itself: what is still at work when the next turn comes is waited for. What goes
 * wrong is told, and tried again at the next turn. The server ends it before it ends; see lib/cli/stop-serving.ts.
 */
export function runEvery(name: string, everyMs: number, job: () => Promise<unknown>, atOnce = false): void {
  shared.__yokeboardJobs ??= new Set();
  if (shared.__yokeboardJobs.has(name)) return;
  shared.__yokeboardJobs.add(name);
  let running: Promise<unknown> = Promise.resolve();
  const turn = () => {
    running = running
      .then(job)
      .catch((problem: unknown) => console.error(`${name}:`, problem instanceof Error ? problem.message : problem));
  };
  if (atOnce) turn();
  const timer = setInterval(turn, everyMs);
  timer.unref();
  shared.__yokeboardClosers ??= new Set();
  shared.__yokeboardClosers.add(async () => {
    clearInterval(timer);
    await running;
  });
}
