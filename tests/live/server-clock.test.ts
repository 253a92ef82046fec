import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { ServerClock } from "@/app/_live/server-clock";

const AT = Date.parse("2026-03-04T12:10:00Z");

describe("the server's time on a screen", () => {
  beforeEach(() => vi.useFakeTimers({ now: 0, toFake: ["performance", "Date"] }));
  afterEach(() => vi.useRealTimers());

  it("goes on by the device's counter, whatever the device's own clock is set to", () => {
    const clock = new ServerClock();
    clock.hear(AT);
    vi.advanceTimersByTime(7_000);
    vi.setSystemTime(Date.parse("2031-01-01T00:00:00Z"));
    expect(clock.now()).toBe(AT + 7_000);
  });

  it("knows nothing before it has heard", () => {
    expect(new ServerClock().now()).toBeNull();
  });

  it("counts from when it was heard, not from when this tab was told", () => {
    const clock = new ServerClock();
    clock.hear(AT, 4_000);
    expect(clock.now()).toBe(AT + 4_000);
  });

  it("is not set back by a message that took longer on its way", () => {
    const clock = new ServerClock();
    clock.hear(AT);
    vi.advanceTimersByTime(10_000);
    clock.hear(AT + 10_000 - 300);
    expect(clock.now()).toBe(AT + 10_000);
  });

  it("follows the server when the two are far apart", () => {
    const clock = new ServerClock();
    clock.hear(AT);
    clock.hear(AT - 3_600_000);
    expect(clock.now()).toBe(AT - 3_600_000);
  });
});
