import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import type { AppliesWhen, ProcedureItem } from "@/lib/domain/procedure/model";
import type { Place } from "@/lib/domain/rule";
import type { Gas } from "@/lib/domain/vocabulary";

/** Is an item of a procedure asked here at all, by what stands in the room and comes out of its walls? */
export function applies(when: AppliesWhen, item: ItemId, place: Place): boolean {
  const { room, workstation } = place;
  if (itemOf(item).about === "room" && room === null) return false;
  if (itemOf(item).about === "workstation" && workstation === null) return false;
  const model = workstation?.model;
  return (
    (when.scheme === undefined || when.scheme === place.facility.scheme) &&
    (when.leakTest === undefined || (model !== undefined && when.leakTest.includes(model.leakTest))) &&
    (when.gas === undefined || isAtHand(when.gas, place)) &&
    asked(when.nitrousOxideAtHand, isAtHand("nitrous-oxide", place)) &&
    asked(when.outletSelector, model?.outletSelector ?? false) &&
    asked(when.wasteGasActive, room?.wasteGas === "active") &&
    asked(when.vacuum, room?.vacuum ?? false) &&
    asked(when.vaporizerFitted, (workstation?.fitted.vaporizers.length ?? 0) > 0) &&
    asked(when.selfTest, (model?.selfTestCovers.length ?? 0) > 0) &&
    !(when.unlessSelfTestCovers === true && (model?.selfTestCovers.includes(item) ?? false))
  );
}

/** A condition that is absent always holds; one that is present must match. */
const asked = (condition: boolean | undefined, fact: boolean): boolean => condition === undefined || condition === fact;

/** Piped into the room, or on a yoke of the workstation. */
const isAtHand = (gas: Gas, { room, workstation }: Place): boolean =>
  (room?.piped.includes(gas) ?? false) ||
  (workstation?.fitted.cylinders.some((cylinder) => cylinder.gas === gas) ?? false);

/** What one item is asked about here: each fitted part of its kind, each piped gas, or the room or workstation itself. */
export function subjectsOf(item: Pick<ProcedureItem, "item" | "applies">, { room, workstation }: Place): Subject[] {
  const { kind } = { kind: itemOf(item.item).subject };
  const { gas, indicatorAbsorbent } = item.applies;
  const fitted = workstation?.fitted;
  const of = (parts: readonly { readonly id: string }[] | undefined): Subject[] =>
    (parts ?? []).map(({ id }) => ({ kind, id }));
  switch (kind) {
    case "room":
      return of(room ? [room] : []);
    case "workstation":
      return of(workstation ? [workstation] : []);
    case "pipeline":
      return (room?.piped ?? []).filter((piped) => gas === undefined || piped === gas).map((id) => ({ kind, id }));
    case "cylinder":
      return of(fitted?.cylinders.filter((cylinder) => gas === undefined || cylinder.gas === gas));
    case "vaporizer":
      return of(fitted?.vaporizers);
    case "absorbent":
      return of(fitted?.absorbent.filter(({ product }) => asked(indicatorAbsorbent, product.indicator)));
    case "oxygen-sensor":
      return of(fitted?.oxygenSensor ? [fitted.oxygenSensor] : []);
  }
}
