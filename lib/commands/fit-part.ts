import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { type Context, command, type Refusal } from "@/lib/commands/command";
import { SENSOR_POSITION } from "@/lib/domain/department-parts";
import { judge } from "@/lib/domain/judge";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { decideFit, decideRemove } from "@/lib/domain/part/decide";
import { type FittedPart, PART_NAMES, type PartKind } from "@/lib/domain/part/model";
import { owesWholeCheck } from "@/lib/domain/task/decide";
import type { EventKind } from "@/lib/domain/vocabulary";
import { fitPartReply, fitPartRequest, removePartReply, removePartRequest } from "@/lib/schemas/moves";
import type { Tx } from "@/lib/storage/client";
import { anyStore, endFitting, findStore, insertEvent, insertFitting } from "@/lib/storage/equipment";
import type { Holder } from "@/lib/storage/evidence";
import { findPart, keepPart, sameAgain } from "@/lib/storage/parts";

const EVENTS: Readonly<Record<PartKind, EventKind>> = {
  vaporizer: "vaporizer-fitted",
  absorbent: "absorbent-changed",
  "oxygen-sensor": "sensor-replaced",
};

const noWorkstation = () =>
  refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
const noStore = () => refused("not-found", "There is no store with this id in your facility.", "toStoreId");
const takenMeanwhile = () => refused("taken", "The place or the part was taken in the meantime. Nothing was changed.");

/** Fits a vaporizer, a charge of absorbent or an oxygen sensor; each owes its own recheck. */
export const fitPart = command({
  name: "fit-part",
  summary: "Fit a vaporizer, absorbent or oxygen sensor; a vaporizer may come from another mount or workstation.",
  schema: fitPartRequest,
  reply: fitPartReply,
  locks: ({ workstationId, takenFrom }) => ({
    workstations: [workstationId, ...(takenFrom === undefined ? [] : [takenFrom])],
  }),
  load: async (tx, { workstationId, part, takenFrom, toStoreId }, context, holders) => {
    const { facilityId } = context.begun.scope;
    const { which } = part;
    return {
      holder: await workstationAtHand(workstationId, holders),
      other:
        takenFrom === undefined || takenFrom === workstationId ? null : await workstationAtHand(takenFrom, holders),
      candidate: "sameProduct" in which ? null : await findPart(tx, facilityId, part.kind, which),
      store: toStoreId === undefined ? await anyStore(tx, facilityId) : await findStore(tx, facilityId, toStoreId),
    };
  },
  decide: ({ holder, other, candidate, store }, { part, position, takesOff, takenFrom, toStoreId }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation) return noWorkstation();
    if (candidate === null && !("sameProduct" in part.which)) return noSuchPart(part.kind, part.which);
    if (toStoreId !== undefined && store === null) return noStore();
    const fit = decideFit(
      workstation,
      {
        kind: part.kind,
        position,
        takesOff,
        takenFrom: takenFrom ?? null,
        agentSeen: part.kind === "vaporizer" ? (part.agent ?? null) : null,
        candidate,
      },
      other?.evidence ?? null,
    );
    return fit.ok ? done({ ...fit.value, holder, other, candidate, store }) : fit;
  },
  apply: async (
    tx,
    { holder, other, candidate, takenOff, leaves, store },
    { workstationId, part, position },
    context,
  ) => {
    const { facilityId } = context.begun.scope;
    if (takenOff) await takeOff(tx, context, part.kind, takenOff, store);
    if (candidate?.fittedTo) await endFitting(tx, facilityId, candidate.id, context.now);
    const fitted = candidate ?? (await another(tx, context, part.kind, takenOff));
    if (fitted === null || !(await putOn(tx, context, part.kind, fitted.id, workstationId, position)))
      return takenMeanwhile();
    await recordPart(tx, context, EVENTS[part.kind], { kind: part.kind, id: fitted.id }, workstationId);
    if (leaves !== null)
      await recordPart(tx, context, "vaporizer-removed", { kind: "workstation", id: leaves }, leaves);
    const where = placeName(holder);
    const from = leaves !== null && other ? ` from ${placeName(other)}` : "";
    return {
      reply: {
        workstationId,
        kind: part.kind,
        fitted: fitted.tag,
        takenOff: takenOff?.tag ?? null,
        recheckTaskKey: recheckKey(holder),
      },
      note: {
        text: `${PART_NAMES[part.kind]} of ${where}, place ${position}: ${takenOff ? `${takenOff.tag} off, ` : ""}${fitted.tag} on${from}`,
        data: { workstationId, kind: part.kind, position, off: takenOff?.id ?? null, on: fitted.id, takenFrom: leaves },
      },
    };
  },
});

export const removePart = command({
  name: "remove-part",
  summary: "Take a vaporizer off its mount; what the open mount must show again is owed.",
  schema: removePartRequest,
  reply: removePartReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: async (tx, { workstationId, toStoreId }, context, holders) => ({
    holder: await workstationAtHand(workstationId, holders),
    store:
      toStoreId === undefined
        ? await anyStore(tx, context.begun.scope.facilityId)
        : await findStore(tx, context.begun.scope.facilityId, toStoreId),
  }),
  decide: ({ holder, store }, { partId, toStoreId }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation) return noWorkstation();
    if (toStoreId !== undefined && store === null) return noStore();
    const part = decideRemove(workstation, partId);
    return part.ok ? done({ holder, store, part: part.value }) : part;
  },
  apply: async (tx, { holder, store, part }, { workstationId }, context) => {
    await takeOff(tx, context, "vaporizer", part, store);
    await recordPart(tx, context, "vaporizer-removed", { kind: "workstation", id: workstationId }, workstationId);
    return {
      reply: { workstationId, removed: part.tag, recheckTaskKey: recheckKey(holder) },
      note: {
        text: `Vaporizer ${part.tag} taken off mount ${part.position} of ${placeName(holder)}`,
        data: { workstationId, off: part.id, position: part.position },
      },
    };
  },
});

function noSuchPart(
  kind: PartKind,
  which: { readonly id: string } | { readonly tag: string },
): Extract<Outcome<never, Refusal>, { ok: false }> {
  const asked = "tag" in which ? `with the tag ${which.tag}` : "with this id";
  return refused(
    "not-found",
    `There is no ${PART_NAMES[kind].toLowerCase()} ${asked}. Read the tag again, or add it first.`,
    "part",
  );
}

/** Where the whole check is owed anyway, these items are part of it and no task of their own. */
const recheckKey = ({ evidence, workstationId }: Holder): string | null =>
  owesWholeCheck(judge(evidence)) ? null : `recheck:${workstationId}`;

/** A vaporizer goes to a store; spent absorbent and an old sensor go nowhere. */
async function takeOff(
  tx: Tx,
  { begun, now }: Context,
  kind: PartKind,
  part: FittedPart,
  store: string | null,
): Promise<void> {
  await endFitting(tx, begun.scope.facilityId, part.id, now);
  await keepPart(tx, begun.scope.facilityId, kind, part.id, kind === "vaporizer" ? store : null);
}

async function another(tx: Tx, { begun, newId }: Context, kind: PartKind, like: FittedPart | null) {
  if (like === null || kind === "vaporizer") return null;
  const id = newId();
  const tag = await sameAgain(tx, begun.scope.facilityId, kind, like.id, id);
  return tag === null ? null : { id, tag };
}

async function putOn(
  tx: Tx,
  { begun, now, newId }: Context,
  kind: PartKind,
  itemId: string,
  workstationId: string,
  position: string,
) {
  const place = kind === "oxygen-sensor" ? SENSOR_POSITION : position;
  const fitting = { id: newId(), kind, itemId, workstationId, position: place };
  if (!(await insertFitting(tx, begun.scope.facilityId, fitting, now))) return false;
  await keepPart(tx, begun.scope.facilityId, kind, itemId, null);
  return true;
}

const recordPart = (
  tx: Tx,
  { begun, now, actor, newId }: Context,
  kind: EventKind,
  subject: { readonly kind: PartKind | "workstation"; readonly id: string },
  workstationId: string,
): Promise<void> =>
  insertEvent(tx, begun.scope.facilityId, {
    id: newId(),
    kind,
    subject,
    workstationId,
    roomId: null,
    at: now,
    by: actor.personId,
  });
