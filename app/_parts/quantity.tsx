import type { Quantity } from "@/lib/units/quantity";
import { quantityText } from "./format";

/** A measured value with its unit. */
export function QuantityText({ of }: { of: Quantity }) {
  return <span>{quantityText(of)}</span>;
}
