import type { Rule } from "@/lib/domain/rule";
import { minutesLater, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";

/** Service leaves a machine as the engineer needs it. The first user looks at everything, whatever was checked earlier that day. */
export const firstUserCheck: Rule = {
  id: "first-user-check",
  inBrief: "first-user check",
  what: "After service the first user's check is recorded before anything else",
  severity: "owed",
  citation:
    "Association of Anaesthetists, Checking Anaesthetic Equipment 2012, Anaesthesia 67:660-8: first-user check after servicing",
  items: [],
  settings: {},
  allowedBy: [],
  always: true,
  judge: (context) => {
    if (context.firstUserCheckDone()) return [];
    return [
      {
        subject: workstationSubject(context),
        text: "First-user check owed after service",
        measured: null,
        limit: "first-user check",
      },
    ];
  },
  examples: [
    { name: "no service since the check", given: (ready) => ready, expect: "holds" },
    {
      name: "released from service, whatever was checked that day",
      given: (ready) =>
        withWorkstation(ready, () => ({ firstUserCheckOwedSince: ready.checks[0]?.startedAt ?? ready.now })),
      expect: "owed",
    },
    {
      name: "serviced after the last whole check",
      given: (ready) => {
        const subject = { kind: "workstation", id: ready.workstation?.id ?? "" } as const;
        const event = { id: "service", kind: "serviced", subject, at: minutesLater(ready, -1), zone: null } as const;
        return { ...ready, events: [event] };
      },
      expect: "owed",
    },
    {
      name: "the first user's check signed",
      given: (ready) => ({
        ...withWorkstation(ready, () => ({ firstUserCheckOwedSince: ready.checks[0]?.startedAt ?? ready.now })),
        checks: ready.checks.map((check) => ({ ...check, kind: "first-user" })),
      }),
      expect: "holds",
    },
  ],
};
