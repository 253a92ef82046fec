import { dateText, dayText } from "@/app/_parts/format";
import type { Definition } from "@/app/_ui/definition-list";
import type { RoomView } from "@/lib/schemas/room";
import { dateIn, instantOf } from "@/lib/units/time";
import type { PathNode } from "./gas-path-nodes";

/** What is fitted at one place of the gas path: its number, and the dates on its labels. A place without a part of its own has none. */
export function datesAt({ id, position, parts }: PathNode, { fitted, facility }: RoomView): Definition[] {
  if (!fitted) return [];
  const since = (from: string) => dayText(dateIn(facility.timeZone, instantOf(from)));
  const day = (date: string | null) => date && dateText(date);
  const on = <Part extends { readonly id: string }>(found: readonly Part[]) =>
    found.find((part) => parts.some(({ subject }) => subject.id === part.id));
  const cylinder = position === null ? undefined : on(fitted.cylinders);
  if (cylinder) {
    return [
      { term: "Cylinder", value: `${cylinder.serial} (${cylinder.size}), on since ${since(cylinder.from)}` },
      { term: "Label expires", value: day(cylinder.expiry) },
      { term: "Retest due", value: day(cylinder.retestDue) },
    ];
  }
  const vaporizer = position === null ? undefined : on(fitted.vaporizers);
  if (vaporizer) {
    return [
      { term: "Vaporizer", value: `${vaporizer.tag}, on since ${since(vaporizer.from)}` },
      { term: "Calibration due", value: day(vaporizer.calibrationDue) },
    ];
  }
  if (id === "absorbent") {
    return fitted.absorbent.map(({ position: canister, product, tag, from }) => ({
      term: `Canister ${canister}`,
      value: `${product} ${tag}, since ${since(from)}`,
    }));
  }
  const { oxygenSensor } = fitted;
  return id === "oxygen-sensor" && oxygenSensor
    ? [{ term: "Sensor", value: `${oxygenSensor.tag}, ${oxygenSensor.kind}, since ${since(oxygenSensor.from)}` }]
    : [];
}
