import type { Evidence } from "@/lib/domain/evidence";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { mayBeSwappedIn } from "@/lib/domain/spare-choice";
import type { SwapAsked, SwapPlan } from "@/lib/domain/workstation/model";

type SwapRefusal = "not-found" | "not-allowed" | "moved-on" | "taken" | "invalid" | "does-not-fit";
type Refusal = Extract<Outcome<never, SwapRefusal>, { ok: false }>;

/**
 * May this workstation take the place of that one? What is told as a refusal is what somebody would find on the way: it is gone, it
 * has failed, somebody holds it, a case runs in the room. Nobody has checked it is not a failure, but it must be said to be known.
 */
export function decideSwapWorkstation(
  room: Evidence | null,
  incoming: Evidence | null,
  asked: SwapAsked,
): Outcome<SwapPlan, SwapRefusal> {
  if (!room?.room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
  if (!incoming?.workstation)
    return refused("not-found", "There is no workstation with this id in your facility.", "incomingWorkstationId");
  return (
    wrongRoom(room, asked) ??
    wrongDestination(room, asked) ??
    wrongOrigin(incoming, asked) ??
    wrongWorkstation(incoming, room.room.name, asked) ??
    done({
      exchangedWith: asked.outgoingTo === "exchange" ? (incoming.room?.id ?? null) : null,
      toStore: asked.outgoingTo !== null && asked.outgoingTo !== "exchange" ? asked.outgoingTo.store : null,
    })
  );
}

function wrongRoom({ room, workstation }: Evidence, asked: SwapAsked): Refusal | null {
  const name = room?.name ?? "The room";
  if (room?.occupancy.state === "in-use")
    return refused("not-allowed", `A case is running in ${name}. Swap the workstation after it has ended.`, "roomId");
  if ((workstation?.id ?? null) === asked.outgoing) return null;
  const holds = workstation ? `holds ${workstation.tag}` : "holds no workstation";
  return refused(
    "moved-on",
    `${name} ${holds} by now. Look at it again. Nothing was changed.`,
    "outgoingWorkstationId",
  );
}

function wrongDestination(
  { workstation }: Evidence,
  { outgoing, incoming, outgoingTo, storeKnown }: SwapAsked,
): Refusal | null {
  if (incoming === outgoing)
    return refused(
      "invalid",
      `${workstation?.tag ?? "It"} stands there already. Choose another one.`,
      "incomingWorkstationId",
    );
  if (outgoing !== null && outgoingTo === null)
    return refused(
      "invalid",
      `Say where ${workstation?.tag ?? "the other one"} goes: a store, or the other's place.`,
      "outgoingTo",
    );
  if (outgoing === null && outgoingTo !== null)
    return refused("invalid", "Nothing goes out of an empty room, so it needs no place to go to.", "outgoingTo");
  return storeKnown
    ? null
    : refused("not-found", "There is no store with this id in your facility.", "outgoingTo.store");
}

function wrongOrigin(incoming: Evidence, { outgoingTo }: SwapAsked): Refusal | null {
  const tag = incoming.workstation?.tag ?? "";
  const exchange = outgoingTo === "exchange";
  if (incoming.room === null)
    return exchange
      ? refused(
          "invalid",
          `${tag} stands in a store, so there is no room to change with. Choose a store for the other one.`,
          "outgoingTo",
        )
      : null;
  if (!exchange)
    return refused(
      "taken",
      `${tag} stands in ${incoming.room.name}. Choose one from a store, or let the two change places.`,
      "incomingWorkstationId",
    );
  if (incoming.room.occupancy.state !== "in-use") return null;
  return refused(
    "not-allowed",
    `A case is running in ${incoming.room.name}. ${tag} stays there until it has ended.`,
    "incomingWorkstationId",
  );
}

function wrongWorkstation(incoming: Evidence, roomName: string, { acceptUnchecked }: SwapAsked): Refusal | null {
  const tag = incoming.workstation?.tag ?? "";
  const verdict = mayBeSwappedIn(incoming);
  if (!verdict.ok)
    return refused(
      "does-not-fit",
      `${tag} may not be used: ${verdict.why}. Choose another one.`,
      "incomingWorkstationId",
    );
  if (verdict.checked || acceptUnchecked) return null;
  return refused(
    "does-not-fit",
    `${tag} has not been checked today. Check it first, or take it unchecked: its whole check is then owed in ${roomName}.`,
    "acceptUnchecked",
  );
}
