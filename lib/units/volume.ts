export const VOLUME_UNITS = ["L", "mL"] as const;
export type VolumeUnit = (typeof VOLUME_UNITS)[number];

const MILLILITRES: Record<VolumeUnit, number> = { L: 1_000, mL: 1 };

export function isVolumeUnit(unit: string): unit is VolumeUnit {
  return unit in MILLILITRES;
}

/** A volume in the other unit, exact. */
export function volumeIn(value: number, from: VolumeUnit, to: VolumeUnit): number {
  return from === to ? value : (value * MILLILITRES[from]) / MILLILITRES[to];
}
