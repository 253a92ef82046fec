import { type Litre, litre } from "@/lib/units/measure";
import type { PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import type { CylinderGas } from "./gases";
import type { Reference } from "./reference-conditions";

/** Letters mean different cylinders in different countries: a letter without its scheme is no size. */
export const SIZE_SCHEMES = ["US", "UK"] as const;
export type SizeScheme = (typeof SIZE_SCHEMES)[number];

/** How far a figure was followed to its source. */
export type SourceMark = "from memory" | "computed" | "secondary";

export interface SizeRating {
  readonly rated: Litre;
  readonly ratedPressure: Quantity<PressureUnit>;
}

export interface CylinderSize {
  readonly scheme: SizeScheme;
  readonly letter: string;
  /** Null where no source gives one and the rating is too rough to derive it: read it off the cylinder's shoulder. */
  readonly waterCapacity: Litre | null;
  readonly waterCapacityMark: SourceMark | null;
  /** What the scheme's tables count a litre at. */
  readonly reference: Reference;
  readonly ratings: Readonly<Partial<Record<CylinderGas, SizeRating>>>;
  readonly source: string;
  readonly mark: SourceMark;
}

const US_TABLE =
  "Dorsch and Dorsch, Understanding Anesthesia Equipment, table of typical cylinders; Miller's Anesthesia; Barash, Clinical Anesthesia";
const UK_TABLE = "UK medical-gas data sheets; Al-Shaikh and Stacey, Essentials of Anaesthetic Equipment";

/** Gauge pressure of a full cylinder of nitrous oxide in the US tables, and in the UK ones. */
const US_NITROUS_PSI = 745;
const UK_NITROUS_BAR = 44;

const psi = (rated: number, value: number): SizeRating => ({
  rated: litre(rated),
  ratedPressure: { value, unit: "psi" },
});
const bar = (rated: number, value: number): SizeRating => ({
  rated: litre(rated),
  ratedPressure: { value, unit: "bar" },
});

function us(letter: string, waterCapacity: number | null, ratings: CylinderSize["ratings"]): CylinderSize {
  return {
    scheme: "US",
    letter,
    waterCapacity: waterCapacity === null ? null : litre(waterCapacity),
    waterCapacityMark: waterCapacity === null ? null : "computed",
    reference: "70F-1atm",
    ratings,
    source: US_TABLE,
    mark: "from memory",
  };
}

function uk(letter: string, waterCapacity: number, ratings: CylinderSize["ratings"]): CylinderSize {
  return {
    scheme: "UK",
    letter,
    waterCapacity: litre(waterCapacity),
    waterCapacityMark: "from memory",
    reference: "15C",
    ratings,
    source: UK_TABLE,
    mark: "from memory",
  };
}

/**
 * Cylinder sizes by scheme and letter, with what the handbooks rate them at.
 *
 * The water capacity of the US E cylinder is computed: 660 L of oxygen at 1,900 psi and 70 F fill 4.80 L by the equation of state;
 * makers stamp 4.7 to 4.8. The other US letters are left open, for their ratings come from one rounding or another.
 * One public page ties the 660 L to 2,000 to 2,200 psi: the equation says 1,900.
 */
export const CYLINDER_SIZES: readonly CylinderSize[] = [
  us("B", null, { oxygen: psi(200, 1_900) }),
  us("D", null, { oxygen: psi(400, 1_900), air: psi(375, 1_900), "nitrous-oxide": psi(940, US_NITROUS_PSI) }),
  us("E", 4.8, { oxygen: psi(660, 1_900), air: psi(625, 1_900), "nitrous-oxide": psi(1_590, US_NITROUS_PSI) }),
  us("M", null, { oxygen: psi(3_450, 2_200), air: psi(2_850, 1_900), "nitrous-oxide": psi(7_570, US_NITROUS_PSI) }),
  us("G", null, { air: psi(5_050, 1_900), "nitrous-oxide": psi(13_800, US_NITROUS_PSI) }),
  us("H", null, { oxygen: psi(6_900, 2_200), air: psi(6_550, 2_200), "nitrous-oxide": psi(15_800, US_NITROUS_PSI) }),
  uk("C", 1.2, { oxygen: bar(170, 137), "nitrous-oxide": bar(450, UK_NITROUS_BAR) }),
  uk("D", 2.32, { oxygen: bar(340, 137), "nitrous-oxide": bar(900, UK_NITROUS_BAR) }),
  uk("E", 4.68, { oxygen: bar(680, 137), air: bar(640, 137), "nitrous-oxide": bar(1_800, UK_NITROUS_BAR) }),
  uk("F", 9.43, { oxygen: bar(1_360, 137), air: bar(1_280, 137), "nitrous-oxide": bar(3_600, UK_NITROUS_BAR) }),
  uk("G", 23.6, { oxygen: bar(3_400, 137), air: bar(3_200, 137), "nitrous-oxide": bar(9_000, UK_NITROUS_BAR) }),
  uk("J", 47.2, { oxygen: bar(6_800, 137), air: bar(6_400, 137) }),
  uk("CD", 2, { oxygen: bar(460, 230) }),
  uk("HX", 10, { oxygen: bar(2_300, 230) }),
];

/** The size of a letter in its scheme; null if the scheme has no such letter. There is no way to ask for a letter alone. */
export function cylinderSize(scheme: SizeScheme, letter: string): CylinderSize | null {
  return CYLINDER_SIZES.find((size) => size.scheme === scheme && size.letter === letter) ?? null;
}
