import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type ChangeEvent, LiveStore } from "@/app/_live/live-store.client";
import type { RowsEvent } from "@/lib/schemas/live";
import { FACILITY, roomId } from "./board-rows";
import { StubEventSource, stubBrowser } from "./browser-stub";

const START = Date.parse("2026-03-04T12:10:00Z");
const at = (seconds: number) => new Date(START + seconds * 1000).toISOString();

let page: ReturnType<typeof stubBrowser>;
let store: LiveStore;
let heard: ChangeEvent[];
beforeEach(() => {
  vi.useFakeTimers({ now: START });
  page = stubBrowser();
  heard = [];
  store = new LiveStore(FACILITY);
  store.readAt(START);
  store.start();
  store.hear((event) => heard.push(event));
});
afterEach(() => {
  store.stop();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const stream = () => StubEventSource.latest;
const hello = (sequence: number, seconds = 0, facility = FACILITY) =>
  stream().say("hello", { facility, sequence, at: at(seconds) });
const rows = (sequence: number, seconds: number): RowsEvent => ({
  facility: FACILITY,
  sequence,
  after: sequence - 1,
  at: at(seconds),
  holders: [roomId(1)],
  complete: false,
  rooms: [],
});
const pass = (seconds: number) => vi.advanceTimersByTime(seconds * 1000);

describe("a screen that hears nothing", () => {
  it("says that it is not live within 30 seconds, and since when", () => {
    hello(10);
    pass(10);
    stream().say("beat", { at: at(10) });
    pass(24);
    expect(store.status).toEqual({ state: "live" });
    pass(2);
    expect(store.status).toEqual({ state: "not-live", since: START + 10_000 });
  });

  it("never heard anything at all: since the page was made", () => {
    pass(26);
    expect(store.status).toEqual({ state: "not-live", since: START });
  });

  it("is live again with the next beat, and tells its watchers both times", () => {
    let told = 0;
    store.watch(() => {
      told += 1;
    });
    hello(10);
    pass(26);
    expect(told).toBe(1);
    stream().say("hello", { facility: FACILITY, sequence: 10, at: at(26) });
    expect(store.status).toEqual({ state: "live" });
    expect(told).toBe(2);
  });

  it("is not deceived by the stream of another facility", () => {
    hello(10, 0, roomId(7));
    pass(20);
    hello(11, 20, roomId(7));
    pass(6);
    expect(store.status.state).toBe("not-live");
    expect(heard).toEqual([]);
  });

  it("is not live from the moment the server ends its stream, until the next one says hello", () => {
    hello(10);
    pass(3);
    stream().say("ended", { reason: "session-ended" });
    expect(store.status).toEqual({ state: "not-live", since: START });
    const before = StubEventSource.opened.length;
    pass(16);
    expect(StubEventSource.opened.length).toBe(before + 1);
    hello(10, 19);
    expect(store.status).toEqual({ state: "live" });
  });

  it("is not live after the device slept, until something is heard", () => {
    hello(10);
    const opened = StubEventSource.opened.length;
    // Asleep, the monotonic counter stands still and the wall clock does not.
    vi.setSystemTime(START + 3_600_000);
    page.document.dispatchEvent(new Event("visibilitychange"));
    expect(store.status).toEqual({ state: "not-live", since: START });
    expect(StubEventSource.opened.length).toBe(opened + 1);
    hello(10, 3_600);
    expect(store.status).toEqual({ state: "live" });
  });
});

describe("the stream behind it", () => {
  it("is opened again when it falls silent without an error", () => {
    hello(10);
    const first = stream();
    pass(23);
    expect(stream()).not.toBe(first);
    expect(first.readyState).toBe(StubEventSource.CLOSED);
  });

  it("is opened again, more and more slowly, while the server refuses it", () => {
    for (let i = 0; i < 6; i += 1) {
      stream().refuse();
      pass(16);
    }
    expect(StubEventSource.opened.length).toBe(7);
    stream().refuse();
    pass(7);
    expect(StubEventSource.opened.length).toBe(7);
  });

  it("is closed with the page, and opened again when the page comes back from the browser's cache", () => {
    page.window.dispatchEvent(new Event("pagehide"));
    expect(stream().readyState).toBe(StubEventSource.CLOSED);
    const opened = StubEventSource.opened.length;
    page.window.dispatchEvent(new Event("pageshow"));
    expect(StubEventSource.opened.length).toBe(opened + 1);
  });
});

describe("what the pages are told", () => {
  it("every change, in order", () => {
    hello(10);
    stream().say("rows", rows(11, 1));
    stream().say("rows", rows(12, 2));
    expect(heard.map(({ name, data }) => [name, data.sequence])).toEqual([
      ["hello", 10],
      ["rows", 11],
      ["rows", 12],
    ]);
  });

  it("a hello only if something may have been missed: not the welcome of another tab", () => {
    hello(10);
    stream().say("rows", rows(11, 1));
    hello(11, 2);
    expect(heard.map(({ name }) => name)).toEqual(["hello", "rows"]);
    hello(12, 3);
    expect(heard.map(({ name }) => name)).toEqual(["hello", "rows", "hello"]);
    pass(15);
    hello(12, 18);
    expect(heard.map(({ name }) => name)).toEqual(["hello", "rows", "hello", "hello"]);
  });

  it("the changes of the last seconds, to a page that comes later", () => {
    hello(10);
    stream().say("rows", rows(11, 1));
    pass(3);
    stream().say("rows", rows(12, 4));
    pass(3);
    const late: number[] = [];
    store.hear(({ data }) => late.push(data.sequence));
    expect(late).toEqual([12]);
  });

  it("the server's time", () => {
    hello(10, 100);
    pass(2);
    expect(store.clock.now()).toBe(START + 102_000);
  });
});
