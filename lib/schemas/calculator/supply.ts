import { z } from "zod";
import { DRIVE_GAS_SOURCES, DRIVES } from "@/lib/calculations/drive-gas";
import { amount, oneOf, text } from "./inputs";

export const endurance = z.strictObject({
  litres: amount({ title: "Contents", unit: "L", description: "Usable litres now" }),
  freshGasLPerMin: amount({ title: "Fresh gas", unit: "L/min", description: "Flow from this supply in L/min" }),
  driveGasLPerMin: amount({
    title: "Drive gas",
    unit: "L/min",
    description: "What the ventilator's drive takes from the same supply in L/min; 0 or absent: none",
  }).default(0),
  alarmLitres: amount({
    title: "Alarm at",
    unit: "L",
    description: "Usable litres at which the low-supply alarm sounds; if absent no time to the alarm is told",
  }).optional(),
  residualLitres: amount({
    title: "Residual",
    unit: "L",
    description: "Usable litres that are to stay in the cylinder; 0 if absent",
  }).default(0),
});

export const departmentEndurance = z.strictObject({
  rooms: z
    .array(
      z.strictObject({
        room: text({ title: "Room", description: "Name of the room" }, 60),
        litres: amount({ title: "Contents", unit: "L", description: "Usable litres of its own cylinders" }),
        flowLPerMin: amount({ title: "Flow", unit: "L/min", description: "All that the room takes in L/min" }),
        residualLitres: amount({
          title: "Residual",
          unit: "L",
          description: "Litres that are to stay; 0 if absent",
        }).default(0),
      }),
    )
    .min(1)
    .max(500)
    .meta({ title: "Rooms", description: "Each room on its own cylinders" }),
  storeLitres: amount({ title: "Store", unit: "L", description: "Usable litres in the store; 0 if absent" }).default(0),
});

export const driveGas = z.strictObject({
  drive: oneOf(DRIVES, { title: "Drive", description: "What moves the breath when the ventilator does" }),
  source: oneOf(DRIVE_GAS_SOURCES, {
    title: "Drive gas from",
    description: "Where the drive gas comes from once the oxygen pipeline is gone",
  }),
  minuteVentilationLPerMin: amount({
    title: "Minute ventilation",
    unit: "L/min",
    description: "Minute ventilation in L/min",
  }),
  measuredLPerMin: amount({
    title: "Measured use",
    unit: "L/min",
    description: "Drive gas as measured in L/min; used in place of the rule of thumb",
  }).optional(),
});
