import { AIR } from "./equation-of-state/air";
import type { Fluid } from "./equation-of-state/fluid";
import { NITROUS_OXIDE } from "./equation-of-state/nitrous-oxide";
import { OXYGEN } from "./equation-of-state/oxygen";

/** The gases of an anesthesia workstation's cylinders. */
export const CYLINDER_GASES = ["oxygen", "air", "nitrous-oxide"] as const;
export type CylinderGas = (typeof CYLINDER_GASES)[number];

export const FLUIDS: Record<CylinderGas, Fluid> = { oxygen: OXYGEN, air: AIR, "nitrous-oxide": NITROUS_OXIDE };
