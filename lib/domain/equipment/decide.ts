import { keyOf } from "@/lib/domain/department-merge";
import type { WorkstationAsked } from "@/lib/domain/equipment/model";
import { type ModelsKnown, strandedOn } from "@/lib/domain/model/decide";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { PlacesKnown } from "@/lib/domain/room/decide";
import type { WorkstationKnown } from "@/lib/domain/room/model";

type Known = ModelsKnown & PlacesKnown;
type Wrong = Extract<Outcome<never, "not-found" | "taken" | "invalid" | "does-not-fit" | "moved-on">, { ok: false }>;

/** A workstation: added, changed, or brought back after it was retired. */
export function decideWorkstation(known: Known, asked: WorkstationAsked) {
  const { workstationId } = asked;
  const was = known.workstations.find(({ id }) => id === workstationId) ?? null;
  if (workstationId !== null && was === null)
    return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
  const wrong = wrongIdentity(known, asked) ?? wrongModel(known, asked, was) ?? wrongPlace(known, asked, was);
  return wrong ?? done({ was });
}

/** A tag names one workstation for good, and a serial number one machine of its model, retired or not. */
function wrongIdentity(
  { workstations, models }: Known,
  { workstationId, tag, serial, modelId }: WorkstationAsked,
): Wrong | null {
  const others = workstations.filter(({ id }) => id !== workstationId);
  const tagged = others.find((other) => keyOf(other.tag) === keyOf(tag));
  if (tagged)
    return refused(
      "taken",
      tagged.retired
        ? `${tagged.tag} is a retired workstation. Bring it back, or choose another tag.`
        : `There is a workstation ${tagged.tag} already. Choose another tag.`,
      "tag",
    );
  const same = others.find((other) => other.modelId === modelId && keyOf(other.serial) === keyOf(serial));
  const model = models.find(({ id }) => id === modelId)?.name ?? "this model";
  return same
    ? refused(
        "taken",
        `Serial number ${serial} of ${model} belongs to ${same.tag}${same.retired ? ", which is retired" : ""}. Read it again on the label.`,
        "serial",
      )
    : null;
}

function wrongModel({ models }: Known, { modelId }: WorkstationAsked, was: WorkstationKnown | null): Wrong | null {
  const model = models.find(({ id }) => id === modelId);
  if (!model)
    return refused(
      "not-found",
      "There is no model with this id in your organisation. Choose one of the list.",
      "modelId",
    );
  const stranded = was && was.modelId !== modelId ? strandedOn([was], model.document) : null;
  return stranded
    ? refused(
        "does-not-fit",
        `${model.name} has no place for ${stranded.part.name} at position ${stranded.part.position}. Take it off first.`,
        "modelId",
      )
    : null;
}

function wrongPlace({ rooms, stores }: Known, { place }: WorkstationAsked, was: WorkstationKnown | null): Wrong | null {
  const stands = was !== null && !was.retired;
  if (place === null)
    return stands ? null : refused("invalid", "Say where it stands: a room, or a store for a spare.", "place");
  if (stands)
    return refused(
      "invalid",
      `${was.tag} is moved by a swap in its room, so that the move is checked. Leave its place as it is.`,
      "place",
    );
  if ("storeId" in place)
    return stores.some(({ id }) => id === place.storeId)
      ? null
      : refused("not-found", "There is no store with this id in your facility. Choose one of the list.", "place");
  const room = rooms.find(({ id }) => id === place.roomId);
  if (!room || room.retired)
    return refused("not-found", "There is no room with this id in your facility. Choose one of the list.", "place");
  if (room.inUse) return refused("moved-on", `${room.name} has a case in it. End the case first.`, "place");
  return room.workstation === null
    ? null
    : refused("taken", `${room.workstation} stands in ${room.name}. Choose an empty room, or a store.`, "place");
}

/** A workstation that is given up: its parts go to a store, and what was recorded about it stays. */
export function decideRetireWorkstation(known: Known, workstationId: string, partsTo: string | null) {
  const was = known.workstations.find(({ id }) => id === workstationId);
  if (!was) return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
  if (was.retired) return refused("already-done", `${was.tag} is retired already.`, "workstationId");
  const room = known.rooms.find(({ id }) => id === was.roomId);
  if (room?.inUse)
    return refused("moved-on", `${was.tag} is in ${room.name} with a case in it. End the case first.`, "workstationId");
  if (partsTo !== null && !known.stores.some(({ id }) => id === partsTo))
    return refused("not-found", "There is no store with this id in your facility. Choose one of the list.", "partsTo");
  if (partsTo === null && was.parts.length > 0)
    return refused(
      "invalid",
      `${was.tag} still carries ${was.parts.map(({ name }) => name).join(", ")}. Say to which store they go.`,
      "partsTo",
    );
  return done({ ...was, roomName: room?.name ?? null });
}
