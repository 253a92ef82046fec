import { z } from "zod";
import { SIZE_SCHEMES } from "@/lib/calculations/cylinder-sizes";
import { CYLINDER_GASES } from "@/lib/calculations/gases";
import { REFERENCES } from "@/lib/calculations/reference-conditions";
import { PRESSURE_UNITS } from "@/lib/units/pressure";
import { amount, date, number, oneOf, pressure, text } from "./inputs";

export const CONTENTS_METHODS = ["equation-of-state", "proportion", "factor"] as const;

const gas = oneOf(CYLINDER_GASES, { title: "Gas", description: "Gas of the cylinder" });
const nitrousOxide = oneOf(["nitrous-oxide"], {
  title: "Gas",
  description: "Nitrous oxide, the one gas here that is liquid in its cylinder",
}).default("nitrous-oxide");
const waterCapacityL = amount({
  title: "Water capacity",
  unit: "L",
  description: "Water capacity of the cylinder in L, as stamped; US E 4.8, UK E 4.68",
});
const gauge = pressure({ title: "Gauge pressure", description: "Gauge pressure, read with the valve open" });
const temperatureC = number({
  title: "Temperature",
  unit: "C",
  description: "Temperature of the gas in C, that of the room if the cylinder has rested there",
});
const reference = oneOf(REFERENCES, {
  title: "Litres counted at",
  description:
    "What a litre of gas is counted at: 70 F and one atmosphere (US tables) or 15 C and 101.325 kPa (ISO); 70F-1atm if absent",
}).default("70F-1atm");

export const accuracy = z
  .strictObject({
    gaugeClass: number({
      title: "Gauge class",
      unit: "%",
      description: "Percent of full scale; 2.5 if absent",
    }).optional(),
    gaugeFullScale: pressure({
      title: "Full scale",
      description: "3,000 psi if absent, 400 bar for readings above it",
    }).optional(),
    temperatureK: number({ title: "Temperature known to", unit: "K", description: "2 if absent" }).optional(),
    waterCapacityPercent: number({
      title: "Water capacity known to",
      unit: "%",
      description: "1.5 if absent",
    }).optional(),
  })
  .meta({ title: "Accuracy", description: "How well the inputs are known" })
  .optional();

export const cylinderContents = z
  .strictObject({
    gas,
    pressure: gauge,
    method: oneOf(CONTENTS_METHODS, {
      title: "Method",
      description: "equation-of-state if absent; proportion from the rating; factor, litres for each psi",
    }).default("equation-of-state"),
    waterCapacityL: waterCapacityL
      .meta({
        ...waterCapacityL.meta(),
        when: { method: ["equation-of-state"] },
        description: "Water capacity of the cylinder in L, as stamped; needed by the equation of state",
      })
      .optional(),
    temperatureC: temperatureC
      .meta({
        ...temperatureC.meta(),
        description: "Temperature of the gas in C; needed by the equation of state, else that of the reference",
      })
      .optional(),
    reference,
    ratedL: amount({
      title: "Rated contents",
      unit: "L",
      description: "Litres of the full cylinder; needed by the proportion",
      when: { method: ["proportion"] },
    }).optional(),
    ratedPressure: pressure({
      title: "Rated pressure",
      description: "Gauge pressure of the full cylinder; needed by the proportion",
      when: { method: ["proportion"] },
    }).optional(),
    litresPerPsi: amount({
      title: "Tank factor",
      unit: "L/psi",
      description: "Litres for each psi; needed by the factor (US E 0.28)",
      when: { method: ["factor"] },
    }).optional(),
    accuracy,
  })
  .superRefine((request, context) => {
    const needed = {
      "equation-of-state": ["waterCapacityL", "temperatureC"],
      proportion: ["ratedL", "ratedPressure"],
      factor: ["litresPerPsi"],
    } as const;
    for (const field of needed[request.method])
      if (request[field] === undefined)
        context.addIssue({
          code: "custom",
          path: [field],
          message: `missing; the method ${request.method} needs it`,
        });
  });

export const nitrousOxideByWeight = z.strictObject({
  grossKg: amount({ title: "Gross", unit: "kg", description: "Weight of the cylinder with its gas in kg" }),
  tareKg: amount({ title: "Tare", unit: "kg", description: "Weight of the empty cylinder in kg, as stamped" }),
  reference,
  scaleKg: amount({
    title: "Scale known to",
    unit: "kg",
    description: "Accuracy of the scale in kg; 0.01 if absent",
  }).optional(),
});

export const saturationPressure = z.strictObject({
  gas: nitrousOxide,
  temperatureC,
  unit: oneOf(PRESSURE_UNITS, { title: "Unit", description: "Unit of the answer; psi if absent" }).default("psi"),
});

export const lastLiquidContents = z.strictObject({ gas: nitrousOxide, waterCapacityL, temperatureC, reference });

export const nitrousOxideFill = z.strictObject({
  netKg: amount({ title: "Nitrous oxide", unit: "kg", description: "Mass of nitrous oxide in the cylinder in kg" }),
  waterCapacityL,
  temperatureC,
  unit: oneOf(PRESSURE_UNITS, { title: "Unit", description: "Unit of the pressure; psi if absent" }).default("psi"),
});

export const closedCylinderPressure = z.strictObject({
  gas,
  pressure: gauge,
  fromC: number({ title: "From", unit: "C", description: "Temperature in C at which the gauge was read" }),
  toC: number({ title: "To", unit: "C", description: "Temperature in C that the gas will have" }),
});

const reading = (title: string) =>
  z
    .strictObject({
      pressure: gauge,
      temperatureC: temperatureC.nullable().optional(),
      at: z.iso
        .datetime({ offset: true, error: "must be an instant such as 2026-11-25T06:10:00Z" })
        .meta({ title: "Read at", description: "Instant of the reading" }),
    })
    .meta({ title, description: "Gauge pressure, temperature (C; null or absent if nobody knows it) and instant" });

export const twoReadings = z.strictObject({
  gas,
  waterCapacityL,
  reference,
  first: reading("First reading"),
  second: reading("Second reading"),
});

export const cylinderSize = z.strictObject({
  scheme: oneOf(SIZE_SCHEMES, { title: "Scheme", description: "Letters mean different cylinders in each scheme" }),
  letter: text({ title: "Letter", description: "Size letter, such as E" }, 4),
});

export const retestDue = z.strictObject({
  stamp: text({ title: "Stamp", description: "Month and year of the last test as stamped, such as 03-22" }, 10),
  specification: oneOf(["3A", "3AA", "3AL", "3AX", "3AAX", "3HT"], {
    title: "Specification",
    description: "Specification of the cylinder, as stamped",
  }),
  star: z
    .boolean()
    .meta({ title: "Star", description: "A five-pointed star follows the date; false if absent" })
    .default(false),
  seenOn: date({ title: "Read on", description: "The day on which the stamp is read, for its century" }),
});
