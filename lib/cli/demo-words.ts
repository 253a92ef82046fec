import { instant, timeIn } from "@/lib/units/time";
import { DEMO_PASSWORD, DEMO_PEOPLE, DEMO_PIN, DEMO_TIME_ZONE } from "@/seed/demo-people";
import type { DemoClock } from "./demo-clock";
import type { OpenServer } from "./server";

/** What a person needs to begin: the address, the time it is there, and whom to be. */
export function describeDemo({ url, alsoAt }: OpenServer, clock: DemoClock): string {
  const time = timeIn(DEMO_TIME_ZONE, instant(Date.now() + clock.offset));
  const day = new Date(`${clock.day}T00:00:00Z`).toLocaleDateString("en-US", {
    weekday: "long",
    day: "numeric",
    month: "long",
    timeZone: "UTC",
  });
  const widest = Math.max(...DEMO_PEOPLE.map(({ userId }) => userId.length));
  const people = DEMO_PEOPLE.map(
    ({ userId, name, roles, facility }) => `  ${userId.padEnd(widest)}  ${name}, ${roles.join(", ")} (${facility})`,
  );
  return [
    "",
    `Yokeboard is ready: ${url}`,
    ...alsoAt.map((address) => `From other devices:  ${address}`),
    `In the demonstration it is ${day}, ${time}. The hospital and everybody in it are invented.`,
    "",
    `Sign in as one of these, password ${DEMO_PASSWORD}, PIN for signing ${DEMO_PIN}:`,
    ...people,
    "",
    "Ctrl-C stops it; the next start goes on with what was recorded.",
  ].join("\n");
}
