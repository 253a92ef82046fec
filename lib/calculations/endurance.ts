/** How long a content of gas lasts at a flow. */
export type Endurance =
  | { readonly ok: true; readonly minutes: number }
  | { readonly ok: false; readonly refusal: "no-consumption" | "not-a-flow" | "not-a-content" };

/**
 *   minutes = (contents - residual) / flow
 *
 * in        usable litres now, usable litres at the residual pressure, flow in L/min
 * out       minutes; 0 at or below the residual, never negative
 * refuses   no flow (nothing is consumed, so no time is the answer), a flow or a content that is not a number of its kind
 * error     that of the contents; the flow is taken as constant
 * source    the arithmetic of the cylinder-duration rule in respiratory care: (pressure - residual) x factor / flow, EMS oxygen
 *           guidance sheet 2010; a residual of 200 psi is usual there
 */
export function enduranceMinutes(contentsL: number, residualL: number, flowLPerMin: number): Endurance {
  if (!(Number.isFinite(contentsL) && contentsL >= 0 && Number.isFinite(residualL) && residualL >= 0)) {
    return { ok: false, refusal: "not-a-content" };
  }
  if (!(Number.isFinite(flowLPerMin) && flowLPerMin >= 0)) return { ok: false, refusal: "not-a-flow" };
  if (flowLPerMin === 0) return { ok: false, refusal: "no-consumption" };
  return { ok: true, minutes: Math.max(0, contentsL - residualL) / flowLPerMin };
}
