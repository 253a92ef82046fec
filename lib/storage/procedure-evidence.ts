import type { ProcedureEvidence } from "@/lib/domain/evidence";
import { isOwn, ownQuestionOf } from "@/lib/domain/own-question";
import { askedSince, expandProcedure } from "@/lib/domain/procedure/decide";
import type { Place } from "@/lib/domain/rule";
import type { EvidenceRows } from "@/lib/storage/evidence-rows";
import { instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

type Rows = Pick<EvidenceRows, "procedure" | "earlier_versions" | "own_questions">;

const exactly = (at: string): Timestamp => timestampOf(instantOf(at));

/** The daily procedure in force as the judge sees it: what it asks here, since when, and the site's own questions. */
export function procedureOf(rows: Rows, place: Place): ProcedureEvidence | null {
  if (rows.procedure === null) return null;
  const { id, version, in_force_from, document } = rows.procedure;
  const own = [
    ...new Map([...document.items.filter(isOwn), ...rows.own_questions.flat()].map((one) => [one.item, one])),
  ];
  const since = askedSince([
    { inForceFrom: exactly(in_force_from), items: document.items.map(({ item }) => item) },
    ...rows.earlier_versions.map(({ in_force_from: at, items }) => ({ inForceFrom: exactly(at), items })),
  ]);
  return {
    id,
    name: document.name,
    version,
    owes: expandProcedure(document, place).map(({ item, subject }) => {
      const from = since.get(item);
      return from === undefined ? { item, subject } : { item, subject, since: from };
    }),
    own: own.map(([, item]) => ownQuestionOf(item, place.facility.pressureUnit)),
    ...(document.settings ? { settings: document.settings } : {}),
  };
}
