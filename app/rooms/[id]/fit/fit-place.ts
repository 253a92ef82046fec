import type { FitPlace } from "@/app/_parts/fit/fit-form.client";
import type { FitWork } from "@/app/_parts/fit/part-work";
import type { RoomView } from "@/lib/schemas/room";
import { dateIn, instantOf } from "@/lib/units/time";

/** What the form needs to know of the room's workstation. */
export const fitPlace = (work: FitWork, view: RoomView): FitPlace => ({
  product: sameProduct(work, view),
  today: dateIn(view.facility.timeZone, instantOf(view.at)),
  asked: view.parts.map(({ item }) => item),
});

/** The product that comes off, when one of the same kind may simply take its place. */
function sameProduct({ kind, takesOff }: FitWork, { fitted }: RoomView): string | null {
  if (takesOff === null) return null;
  if (kind === "absorbent") return fitted?.absorbent.find(({ id }) => id === takesOff.id)?.product ?? null;
  if (kind === "oxygen-sensor") return fitted?.oxygenSensor ? `${fitted.oxygenSensor.kind} sensor` : null;
  return null;
}
