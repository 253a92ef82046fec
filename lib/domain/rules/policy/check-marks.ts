import type { Policy } from "@/lib/domain/rule";

/** A provider who did the whole check has looked at everything; a second signature would add a tap and no look. */
export const checkMarks = {
  id: "check-marks",
  what: "Whether a provider who performs the whole check alone gives both marks by one signature",
  settings: {
    providerAlone: { default: true, citation: "common practice, no source" },
  },
} as const satisfies Policy;
