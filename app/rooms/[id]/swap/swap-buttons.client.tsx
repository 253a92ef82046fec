"use client";

import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import type { RoomView } from "@/lib/schemas/room";

interface SwapButtonProps {
  view: RoomView;
  onSwap: () => void;
}

/** Rooms of which a workstation is the trouble: another one is among the first things to think of. */
export const wantsSwap = ({ row }: RoomView): boolean => {
  if (row.occupancy.state !== "idle") return false;
  if (row.state === "do-not-use" || row.state === "out-of-service") return true;
  return row.state !== "to-check" && !row.readyForList;
};

/** In the room's head where it presses. */
export function SwapFirst({ view, onSwap }: SwapButtonProps) {
  const may = useMayDo("swap-workstation");
  if (!may || !wantsSwap(view)) return null;
  return (
    <Button look="primary" size="large" onClick={onSwap}>
      {view.row.workstation ? "Swap the workstation" : "Bring in a workstation"}
    </Button>
  );
}

/** Among the other things that may be done with a room, where it does not. */
export function SwapLater({ view, onSwap }: SwapButtonProps) {
  const may = useMayDo("swap-workstation");
  if (!may || wantsSwap(view)) return null;
  const inUse = view.row.occupancy.state === "in-use";
  return (
    <Button onClick={onSwap} disabledReason={inUse ? "A case is running: swap after it." : null}>
      Swap the workstation
    </Button>
  );
}
