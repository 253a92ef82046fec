import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, withRoom } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** A vaporizer that delivers too much or nothing is seen first on the agent monitor. */
export const agentMonitor: Rule = {
  id: "agent-monitor",
  inBrief: "agent monitor",
  what: "Agent concentration is monitored; without it no volatile",
  severity: "limits",
  citation: "ASA pre-anesthesia checkout 2008, item 4; the limit is common practice, no source",
  items: ["agent-monitor"],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Bring a portable agent monitor if there is one.",
    differently: "No volatile agent; intravenous anesthesia only.",
    longest: "3-days",
  },
  onlyOfFailing: true,
  judge: (context) =>
    context.portable("agent-monitor")
      ? failures(context, "agent-monitor", "Agent monitor absent or failed, a portable one is in the room", {
          severity: "due",
        })
      : failures(context, "agent-monitor", "Agent monitor absent or failed: no volatile", {
          takesAway: ["no-volatile"],
        }),
  examples: [
    { name: "works", given: (ready) => answered(ready, "agent-monitor", good), expect: "holds" },
    { name: "absent or failed", given: (ready) => answered(ready, "agent-monitor", bad), expect: "limits" },
    {
      name: "absent, and a portable one in the room",
      given: (ready) => withRoom(answered(ready, "agent-monitor", bad), { portable: ["agent-monitor"] }),
      expect: "due",
    },
  ],
};
