import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, withRoom } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

const MONITORS = [
  { item: "capnograph", name: "Capnograph" },
  { item: "oximeter", name: "Pulse oximeter" },
  { item: "ecg", name: "ECG" },
  { item: "blood-pressure", name: "Blood pressure" },
] as const;

/** Every anesthetic is monitored. A portable monitor in the room takes the place of the workstation's own, which is then only work. */
export const monitors: Rule = {
  id: "monitors",
  inBrief: "monitor missing",
  what: "Capnograph, oximeter, ECG and blood pressure work, or a portable one is in the room",
  severity: "stops",
  citation: "ASA pre-anesthesia checkout 2008, item 4; FDA anesthesia apparatus checkout 1993, step 13",
  items: MONITORS.map(({ item }) => item),
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) =>
    MONITORS.flatMap(({ item, name }) =>
      context.portable(item)
        ? failures(context, item, `${name} absent or failed, a portable one is in the room`, { severity: "due" })
        : failures(context, item, `${name} absent or failed, and no portable one`),
    ),
  examples: [
    { name: "capnograph works", given: (ready) => answered(ready, "capnograph", good), expect: "holds" },
    { name: "no capnograph", given: (ready) => answered(ready, "capnograph", bad), expect: "stops" },
    {
      name: "no capnograph, and a portable one in the room",
      given: (ready) => withRoom(answered(ready, "capnograph", bad), { portable: ["capnograph"] }),
      expect: "due",
    },
    {
      name: "no capnograph, and a portable oximeter",
      given: (ready) => withRoom(answered(ready, "capnograph", bad), { portable: ["oximeter"] }),
      expect: "stops",
    },
    { name: "no oximeter", given: (ready) => answered(ready, "oximeter", bad), expect: "stops" },
    { name: "no ECG", given: (ready) => answered(ready, "ecg", bad), expect: "stops" },
    { name: "no blood pressure", given: (ready) => answered(ready, "blood-pressure", bad), expect: "stops" },
  ],
};
