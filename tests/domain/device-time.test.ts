import { describe, expect, it } from "vitest";
import { decideDeviceTime } from "@/lib/domain/device-time";
import { instantOf, timestampOf } from "@/lib/units/time";

const now = instantOf("2026-11-24T12:00:00Z");
const seen = (text: string, offsetSeconds: number) => ({ offsetSeconds, contactAt: instantOf(text) });
const told = (givenAt: string, clock: ReturnType<typeof seen>) => {
  const time = decideDeviceTime(instantOf(givenAt), clock, now);
  if (!time.ok) throw new Error(time.message);
  return { at: timestampOf(time.value.observedAt), known: time.value.known };
};

describe("when an answer kept on a device was given", () => {
  it("by the device's time and the offset it saw, also two hours off", () => {
    expect(told("2026-11-24T11:20:00Z", seen("2026-11-24T11:00:00Z", 0))).toEqual({
      at: "2026-11-24T11:20:00.000Z",
      known: { source: "device", offsetSeconds: 0 },
    });
    expect(told("2026-11-24T13:20:00Z", seen("2026-11-24T13:00:00Z", -7200))).toEqual({
      at: "2026-11-24T11:20:00.000Z",
      known: { source: "device", offsetSeconds: -7200 },
    });
  });

  it("is the server's time when it comes at once: up to fifteen seconds", () => {
    const clock = seen("2026-11-24T11:59:00Z", 0);
    expect(told("2026-11-24T11:59:45Z", clock).known).toEqual({ source: "server" });
    expect(told("2026-11-24T11:59:44.999Z", clock).known).toEqual({ source: "device", offsetSeconds: 0 });
  });

  it("is only a span when the clock was turned back or forward since the contact", () => {
    const clock = seen("2026-11-24T11:00:00Z", 0);
    const span = {
      at: "2026-11-24T12:00:00.000Z",
      known: {
        source: "device",
        offsetSeconds: 0,
        earliest: "2026-11-24T11:00:00.000Z",
        latest: "2026-11-24T12:00:00.000Z",
      },
    };
    expect(told("2026-11-24T09:20:00Z", clock)).toEqual(span);
    expect(told("2026-11-24T13:20:00Z", clock)).toEqual(span);
  });

  it("is refused when it was kept for more than thirty days", () => {
    const late = (contact: string) => decideDeviceTime(instantOf(contact), seen(contact, 0), now).ok;
    expect(late("2026-10-25T12:00:00Z")).toBe(true);
    expect(late("2026-10-25T11:59:59Z")).toBe(false);
  });
});
