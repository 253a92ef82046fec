/** What is used of a worker's own world for messages; the compiler's list of it does not go together with the page's. */
interface PushEvent extends Event {
  readonly data: { json(): unknown } | null;
  waitUntil(work: Promise<unknown>): void;
}
interface ClickEvent extends Event {
  readonly notification: { readonly data: unknown; close(): void };
  waitUntil(work: Promise<unknown>): void;
}
interface Window {
  readonly url: string;
  focus(): Promise<unknown>;
  navigate(url: string): Promise<unknown>;
}
interface MessageWorker {
  readonly registration: {
    showNotification(title: string, options: Readonly<Record<string, unknown>>): Promise<void>;
  };
  readonly clients: {
    matchAll(options: { type: "window" }): Promise<readonly Window[]>;
    openWindow(url: string): Promise<unknown>;
  };
  readonly location: { readonly origin: string };
  addEventListener(type: "push", listener: (event: PushEvent) => void): void;
  addEventListener(type: "notificationclick", listener: (event: ClickEvent) => void): void;
}

interface Told {
  readonly id: string;
  readonly title: string;
  readonly body: string;
  readonly link: string;
}

/** Shows what this device is sent, and opens where it is seen to. The same message twice is shown once. */
export function takeMessages(): void {
  const worker = self as unknown as MessageWorker;
  worker.addEventListener("push", (event) => {
    const told = event.data?.json() as Told | undefined;
    if (!told) return;
    const options = { body: told.body, tag: told.id, data: told.link, requireInteraction: true };
    event.waitUntil(worker.registration.showNotification(told.title, options));
  });
  worker.addEventListener("notificationclick", (event) => {
    event.notification.close();
    event.waitUntil(open(worker, String(event.notification.data)));
  });
}

/** In a window that is open already, if there is one; never anywhere but here. */
async function open({ clients, location }: MessageWorker, link: string): Promise<void> {
  const { pathname, search } = new URL(link, location.origin);
  const [window] = await clients.matchAll({ type: "window" });
  if (!window) {
    await clients.openWindow(pathname + search);
    return;
  }
  await window.focus();
  await window.navigate(pathname + search);
}
