import { type Litre, type LitrePerMinute, litre, type Minute } from "@/lib/units/measure";
import { type Calculated, refused } from "./calculated";

/** Tank factors in print, L/psi, for US letters: EMS oxygen guidance sheet 2010 and one more public page. */
export const TANK_FACTORS = { D: 0.16, E: 0.28, M: 1.56, G: 2.41, H: 3.14 } as const;

/**
 * The least gauge pressure, in psi, from which a cylinder serves a demand down to its residual.
 *
 *   psi = litres asked / factor + residual psi
 *
 * in        litres asked, tank factor in L/psi, residual in psi (200 is usual)
 * out       psi, not rounded; the sheet below rounds up to the next 50
 * error     that of the factor: see cylinder-contents-by-rule.ts; the factors of D and E are on the safe side
 * source    EMS oxygen guidance sheet 2010
 */
export function leastPsiFor(
  asked: Litre,
  litresPerPsi: number,
  residualPsi: number,
): Calculated<number, "demand-unusable" | "factor-unusable"> {
  if (!(asked >= 0 && residualPsi >= 0 && Number.isFinite(residualPsi)))
    return refused(
      "demand-unusable",
      `A demand of ${asked} L down to ${residualPsi} psi cannot be: both are 0 or more.`,
    );
  if (!(litresPerPsi > 0 && Number.isFinite(litresPerPsi)))
    return refused(
      "factor-unusable",
      `A factor of ${litresPerPsi} L/psi cannot be: it is above zero (0.28 for a US E cylinder).`,
    );
  return {
    ok: true,
    value: asked / litresPerPsi + residualPsi,
    method: "tank factor",
    uncertainty: null,
    source: "tank factor of respiratory care: EMS oxygen guidance sheet 2010",
  };
}

/** Litres that a flow takes in a time. */
export function demandOf(flow: LitrePerMinute, time: Minute): Litre {
  return litre(flow * time);
}
