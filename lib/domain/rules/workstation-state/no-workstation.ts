import type { Rule } from "@/lib/domain/rule";

export const noWorkstation: Rule = {
  id: "no-workstation",
  inBrief: "no workstation",
  what: "A room without a workstation is out of service",
  severity: "out",
  citation: "by definition",
  items: [],
  settings: {},
  allowedBy: [],
  always: true,
  judge: ({ evidence }) =>
    evidence.workstation !== null
      ? []
      : [
          {
            subject: { kind: "room", id: evidence.room?.id ?? evidence.facility.id },
            text: "No workstation in this room",
          },
        ],
  examples: [
    { name: "a workstation stands here", given: (ready) => ready, expect: "holds" },
    { name: "none stands here", given: (ready) => ({ ...ready, workstation: null }), expect: "out" },
  ],
};
