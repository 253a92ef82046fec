import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, unanswered, withRoom } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";
import { unlessAnalyzer } from "@/lib/domain/rules/oxygen-sensor/free-standing";

export const lowOxygenAlarm: Rule = {
  id: "low-oxygen-alarm",
  inBrief: "low-oxygen alarm",
  what: "The low-oxygen alarm sounds when the sensor sees less than its limit",
  severity: "stops",
  citation: "ASA pre-anesthesia checkout 2008, item 10; FDA anesthesia apparatus checkout 1993, step 9",
  items: ["low-oxygen-alarm"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) =>
    failures(context, "low-oxygen-alarm", "Low-oxygen alarm fails").map((draft) => unlessAnalyzer(context, draft)),
  examples: [
    { name: "sounds", given: (ready) => answered(ready, "low-oxygen-alarm", good), expect: "holds" },
    { name: "silent", given: (ready) => answered(ready, "low-oxygen-alarm", bad), expect: "stops" },
    {
      name: "silent, with a free-standing analyzer in the room",
      given: (ready) => withRoom(answered(ready, "low-oxygen-alarm", bad), { portable: ["oxygen-analyzer"] }),
      expect: "due",
    },
    { name: "not tried", given: (ready) => unanswered(ready, "low-oxygen-alarm"), expect: "owed" },
  ],
};
