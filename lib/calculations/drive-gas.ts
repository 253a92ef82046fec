import { type LitrePerMinute, litrePerMinute } from "@/lib/units/measure";
import { type Calculated, refused } from "./calculated";

/** What moves the patient's breath when the ventilator does. */
export const DRIVES = ["gas-driven", "piston", "turbine"] as const;
export type Drive = (typeof DRIVES)[number];

/** Where the drive gas comes from once the oxygen pipeline is gone. */
export const DRIVE_GAS_SOURCES = ["oxygen", "air"] as const;
export type DriveGasSource = (typeof DRIVE_GAS_SOURCES)[number];

export interface DriveGasRequest {
  readonly drive: Drive;
  readonly source: DriveGasSource;
  readonly minuteVentilation: LitrePerMinute;
  /** If it was measured, or is in the maker's instructions: used in place of the rule of thumb. */
  readonly measured?: LitrePerMinute;
}

/** The rule of thumb against the study below: 0.5 to 1.5 times the minute ventilation. */
const RULE_SPREAD = 0.5;

/**
 * Oxygen that the ventilator's drive takes from the reserve.
 *
 *   gas-driven on oxygen: the measured flow, else the minute ventilation;   on air, piston, turbine: none
 *
 * in        drive, source of its gas, minute ventilation in L/min
 * out       L/min of oxygen
 * error     rule of thumb ± 50 %: 302 to 599 L/h were measured on a test lung, up to 848 L/h with a stiff one
 * not for   a workstation that changes its drive over from air to oxygen by itself: enter oxygen for it
 * source    drive gas is about the minute ventilation: Dorsch and Dorsch (from memory); the measured figures: published study of
 *           three gas-driven ventilators (abstract)
 */
export function driveGasFromReserve(request: DriveGasRequest): Calculated<LitrePerMinute, "flow-unusable"> {
  const { drive, source, minuteVentilation, measured } = request;
  for (const [name, flow] of Object.entries({ minuteVentilation, measured: measured ?? 0 }))
    if (!(Number.isFinite(flow) && flow >= 0))
      return refused("flow-unusable", `The ${name} of ${flow} L/min cannot be: a flow is 0 or more.`);
  const driven = drive === "gas-driven" && source === "oxygen";
  if (!driven || measured !== undefined)
    return {
      ok: true,
      value: litrePerMinute(driven ? (measured ?? 0) : 0),
      method: driven ? "measured" : "takes no oxygen",
      uncertainty: null,
      source: "the workstation's own drive",
    };
  return {
    ok: true,
    value: minuteVentilation,
    method: "rule of thumb: the minute ventilation",
    uncertainty: {
      low: (1 - RULE_SPREAD) * minuteVentilation,
      high: (1 + RULE_SPREAD) * minuteVentilation,
      because: "rule of thumb ± 50 %; a stiff lung takes more",
    },
    source: "Dorsch and Dorsch, Understanding Anesthesia Equipment (from memory)",
  };
}
