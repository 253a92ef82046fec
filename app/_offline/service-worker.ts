import { takeMessages } from "./service-worker-messages";

/** The build's own mark, put in when it is built: a new build brings a new worker, and with it a new shell. */
declare const BUILD: string;

/** What is used of a worker's own world; the compiler's list of it does not go together with the page's. */
interface LifeEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface RequestEvent extends Event {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
interface Worker {
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", listener: (event: LifeEvent) => void): void;
  addEventListener(type: "fetch", listener: (event: RequestEvent) => void): void;
}
const worker = self as unknown as Worker;

const SHELL = "/offline";
const SHELL_CACHE = `yokeboard-shell-${BUILD}`;
const FILES_CACHE = "yokeboard-files";
/** In a dead corner a request may hang; somebody with gloves on waits no longer than this. */
const PATIENCE_MS = 6_000;

worker.addEventListener("install", (event) => {
  event.waitUntil(keepShell().then(() => worker.skipWaiting()));
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(dropOldShells().then(() => worker.clients.claim()));
});

takeMessages();

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(request, url));
  else if (url.pathname.startsWith("/_next/static/")) event.respondWith(file(request));
});

/** The shell with its own headers (its policy names the nonce that stands in it), and every file that it names. */
async function keepShell(): Promise<void> {
  const shell = await fetch(SHELL, { cache: "no-store", credentials: "omit" });
  if (!shell.ok) throw new Error(`the shell was answered with ${shell.status}`);
  const text = await shell.clone().text();
  const files = await caches.open(FILES_CACHE);
  const named = new Set(text.match(/\/_next\/static\/[^"'\\\s<>)]+/g) ?? []);
  for (const path of await withStyles([...named])) {
    if (!(await files.match(path))) await files.add(path);
  }
  await (await caches.open(SHELL_CACHE)).put(SHELL, shell);
}

/** Style sheets name fonts by relative paths. */
async function withStyles(paths: readonly string[]): Promise<readonly string[]> {
  const found = [...paths];
  for (const path of paths.filter((one) => one.split("?", 1)[0]?.endsWith(".css"))) {
    const text = await (await fetch(path)).text();
    for (const [, inner] of text.matchAll(/url\(["']?([^"')]+)["']?\)/g))
      if (inner && !inner.startsWith("data:")) found.push(new URL(inner, new URL(path, self.location.origin)).pathname);
  }
  return found;
}

async function dropOldShells(): Promise<void> {
  for (const name of await caches.keys())
    if (name.startsWith("yokeboard-shell-") && name !== SHELL_CACHE) await caches.delete(name);
}

/** From the server, or the shell with the place that was wanted. The shell is never a page of anybody. */
async function page(request: Request, url: URL): Promise<Response> {
  try {
    return await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    if (url.pathname !== SHELL) {
      const at = encodeURIComponent(url.pathname);
      return Response.redirect(`${SHELL}?at=${at}`, 302);
    }
    return (await caches.match(SHELL)) ?? Response.error();
  }
}

/** Files of the build carry their content's mark in their name, so a kept one is right for good. */
async function file(request: Request): Promise<Response> {
  const kept = await caches.match(request);
  if (kept) return kept;
  const fetched = await fetch(request);
  if (fetched.ok) await (await caches.open(FILES_CACHE)).put(request, fetched.clone());
  return fetched;
}
