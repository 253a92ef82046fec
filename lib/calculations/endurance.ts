import { type Litre, type LitrePerMinute, type Minute, minute } from "@/lib/units/measure";
import { type Calculated, type Refused, refused } from "./calculated";

export interface EnduranceRequest {
  /** Usable litres now. */
  readonly contents: Litre;
  readonly freshGas: LitrePerMinute;
  /** What the ventilator's drive takes from the same supply; 0 if it is electric or driven from elsewhere (see drive-gas.ts). */
  readonly driveGas: LitrePerMinute;
  /** Usable litres at which the low-supply alarm sounds. */
  readonly alarm?: Litre;
  /** Usable litres that are to stay in the cylinder. */
  readonly residual?: Litre;
}

/** Minutes of one manner of ventilation; to the alarm only where an alarm is known. */
export interface Span {
  readonly toAlarm: Minute | null;
  readonly toResidual: Minute;
}

/** Null for a manner that consumes nothing. */
export interface Endurance {
  readonly byHand: Span | null;
  readonly onVentilator: Span | null;
}

/**
 * How long a reserve lasts, ventilating by hand and on the ventilator.
 *
 *   by hand = (contents - floor) / fresh gas;   on the ventilator = (contents - floor) / (fresh gas + drive gas)
 *
 * in        usable litres; flows in L/min; the litres at which the alarm sounds, and those that are to stay (0 if absent)
 * out       minutes to each of the two floors; 0 at or below it, never negative
 * error     that of the contents, in proportion; flows are taken as constant, and a drive's use changes with the patient's lungs: a
 *           stiff lung took half as much again in the study below
 * refuses   no flow at all ("no-consumption"), flows or contents below zero
 * source    arithmetic of the cylinder-duration rule (EMS oxygen guidance sheet 2010); that drive gas can be more than half of the use:
 *           302 to 599 L/h on three gas-driven ventilators, an E cylinder then lasted 54 to 93 min to its alarm (published test-lung
 *           study, abstract)
 */
export function endurance(
  request: EnduranceRequest,
): Calculated<Endurance, "no-consumption" | "flow-unusable" | "contents-unusable"> {
  const { contents, freshGas, driveGas, alarm, residual = 0 } = request;
  const wrong = flowUnusable({ freshGas, driveGas }) ?? contentsUnusable({ contents, alarm: alarm ?? 0, residual });
  if (wrong) return wrong;
  if (freshGas + driveGas === 0)
    return refused(
      "no-consumption",
      "Neither fresh gas nor drive gas flows, so nothing is consumed and no time is the answer.",
    );
  const span = (flow: number): Span | null =>
    flow === 0
      ? null
      : {
          toAlarm: alarm === undefined ? null : minute(Math.max(0, contents - alarm) / flow),
          toResidual: minute(Math.max(0, contents - residual) / flow),
        };
  return {
    ok: true,
    value: { byHand: span(freshGas), onVentilator: span(freshGas + driveGas) },
    method: "contents over flow",
    uncertainty: null,
    source: "cylinder-duration rule of respiratory care: EMS oxygen guidance sheet 2010",
  };
}

export function flowUnusable(flows: Readonly<Record<string, number>>): Refused<"flow-unusable"> | null {
  for (const [name, flow] of Object.entries(flows))
    if (!(Number.isFinite(flow) && flow >= 0))
      return refused("flow-unusable", `The ${name} of ${flow} L/min cannot be: a flow is 0 or more.`);
  return null;
}

export function contentsUnusable(litres: Readonly<Record<string, number>>): Refused<"contents-unusable"> | null {
  for (const [name, of] of Object.entries(litres))
    if (!(Number.isFinite(of) && of >= 0))
      return refused("contents-unusable", `The ${name} of ${of} L cannot be: it is 0 or more.`);
  return null;
}
