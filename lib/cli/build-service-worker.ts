import { build } from "esbuild";

/** Where the server gives it from: at the root, because a worker speaks for its own folder and below. */
const FILE = "public/service-worker.js";

/** Bundles the service worker. `made` is the mark of the sources: a new build gives a worker of another content. */
export async function buildServiceWorker(made: string): Promise<void> {
  await build({
    entryPoints: ["app/_offline/service-worker.ts"],
    outfile: FILE,
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    define: { BUILD: JSON.stringify(made.slice(0, 16)) },
    logLevel: "silent",
  });
}
