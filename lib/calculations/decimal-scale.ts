/**
 * A number times a power of ten, rounded once: 0.0003 scaled by 6 is exactly 300, where multiplication gives 299.99999999999994.
 * Needed where a reading is compared with a limit at the boundary.
 */
export function scaledByTen(value: number, power: number): number {
  const [digits = "0", exponent = "0"] = value.toExponential().split("e");
  return Number(`${digits}e${Number(exponent) + power}`);
}
