import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { itemOf } from "@/lib/domain/items";
import { textDifference, unseenBy } from "@/lib/domain/procedure-change/decide";
import type { ProcedureDraft } from "@/lib/domain/procedure-change/model";
import { LIBRARY } from "@/lib/domain/ready-made-procedures/all";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { type DraftView, PROCEDURE_KINDS, type ProceduresView } from "@/lib/schemas/procedure";
import { procedureDrafts } from "@/lib/storage/procedure-drafts";
import { procedureVersions, type StoredVersion } from "@/lib/storage/procedures";
import { instantOf, timestampOf } from "@/lib/units/time";

type Version = ProceduresView["kinds"][number]["inForce"];

/** Each kind of check: the version in force, the one that waits, the draft of the next one, and what a draft may begin from. */
export const readProcedures = (actor: Actor, reading: Reading = appReading()): Promise<ProceduresView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const versions = await procedureVersions(tx, facilityId);
      const drafts = await procedureDrafts(tx, facilityId);
      const kinds = PROCEDURE_KINDS.map((kind) => {
        const ofKind = versions.filter((one) => one.kind === kind);
        const inForce = ofKind.find(({ inForceFrom }) => instantOf(inForceFrom) <= now) ?? null;
        const waiting = ofKind.findLast(({ inForceFrom }) => instantOf(inForceFrom) > now) ?? null;
        const draft = drafts.find((one) => one.kind === kind && (one.state === "draft" || one.state === "proposed"));
        return {
          kind,
          inForce: versionView(inForce),
          waiting: versionView(waiting),
          draft: draft ? draftViewOf(draft, ofKind[0] ?? null, actor) : null,
          readyMade: LIBRARY.filter((one) => one.kind === kind).map(({ id, name, citation, items }) => ({
            id,
            name,
            citation,
            items: items.length,
          })),
        };
      });
      return { today: checkDayAt(checkClock(frame), now).date, kinds, at: timestampOf(now) };
    },
    reading,
  );

const versionView = (stored: StoredVersion | null): Version =>
  stored && {
    id: stored.id,
    name: stored.document.name,
    version: stored.version,
    citation: stored.document.citation,
    inForceFrom: stored.inForceFrom,
    items: stored.document.items.map(({ item, title, by }) => ({ item, name: itemOf(item).name, title, by })),
  };

function draftViewOf(draft: ProcedureDraft, newest: StoredVersion | null, actor: Actor): DraftView {
  const before = newest?.document ?? null;
  const { added, removed, reworded, reordered, renamed } = textDifference(before, draft.text);
  return {
    id: draft.id,
    revision: draft.revision,
    state: draft.state === "proposed" ? "proposed" : "draft",
    text: JSON.parse(JSON.stringify(draft.text)),
    savedBy: draft.savedByName,
    savedAt: draft.savedAt,
    inForceOn: draft.inForceOn,
    reason: draft.reason,
    proposedBy: draft.proposedByName,
    declinedBecause: draft.declinedBecause,
    own: draft.authors.includes(actor.personId),
    added: [...added],
    removed: [...removed],
    reworded: [...reworded],
    reordered,
    renamed,
    warnings: unseenBy(draft.kind, before, draft.text),
  };
}
