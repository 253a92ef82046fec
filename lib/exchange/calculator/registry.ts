import * as agent from "./agent-answers";
import type { Calculation } from "./calculation";
import * as cylinder from "./cylinder-answers";
import * as dates from "./date-answers";
import * as identification from "./identification-answers";
import * as safety from "./safety-answers";
import * as sensor from "./sensor-answers";
import * as supply from "./supply-answers";
import * as units from "./unit-answers";

/** Every calculation there is, in the order in which they are listed. */
export const CALCULATIONS: readonly Calculation[] = [
  cylinder.cylinderContentsAnswer,
  supply.enduranceAnswer,
  cylinder.nitrousOxideByWeightAnswer,
  cylinder.saturationPressureAnswer,
  cylinder.lastLiquidAnswer,
  cylinder.nitrousOxideFillAnswer,
  cylinder.closedCylinderAnswer,
  cylinder.twoReadingsAnswer,
  supply.driveGasAnswer,
  supply.departmentEnduranceAnswer,
  cylinder.cylinderSizeAnswer,
  agent.vaporizerUseAnswer,
  agent.vaporizerRefillAnswer,
  agent.absorbentLifeAnswer,
  agent.co2ProductionAnswer,
  sensor.oxygenCellAnswer,
  sensor.trendAnswer,
  dates.serviceDueAnswer,
  dates.quarterlyWindowAnswer,
  dates.workDaysAnswer,
  dates.reportDueAnswer,
  cylinder.retestDueAnswer,
  safety.riskScoreAnswer,
  safety.electricalSafetyAnswer,
  safety.mtbfAnswer,
  safety.expectedFailuresAnswer,
  safety.noFailureAnswer,
  safety.availabilityAnswer,
  safety.completionAnswer,
  identification.gs1Answer,
  identification.checkDigitAnswer,
  identification.hibcAnswer,
  identification.pinIndexAnswer,
  units.convertAnswer,
];

const BY_NAME = new Map(CALCULATIONS.map((one) => [one.name, one]));

export const calculationNamed = (name: string): Calculation | undefined => BY_NAME.get(name);
