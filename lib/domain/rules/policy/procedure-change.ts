import type { Policy } from "@/lib/domain/rule";

/** A check goes on with the version it was begun with. Whether what a newer one asks beyond it is owed the same day, the site decides. */
export const procedureChange = {
  id: "procedure-change",
  what: "Whether a check that was begun before a new version of the procedure owes the same day what only the new version asks",
  settings: {
    owedAtOnce: { default: false, citation: "common practice, no source" },
  },
} as const satisfies Policy;
