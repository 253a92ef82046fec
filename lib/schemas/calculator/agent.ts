import { z } from "zod";
import { AGENTS } from "@/lib/calculations/vaporizer-agents";
import { VAPORIZER_METHODS } from "@/lib/calculations/vaporizer-use";
import { amount, number, oneOf } from "./inputs";

const setting = {
  agent: oneOf(AGENTS, { title: "Agent", description: "Volatile agent" }),
  concentrationPct: number({ title: "Dial", unit: "%", description: "Dial setting in percent by volume" }),
  freshGasLPerMin: number({
    title: "Fresh gas",
    unit: "L/min",
    description: "Fresh gas flow in L/min: with the vapour in it (total-flow), or before the vaporizer (carrier-flow)",
  }),
  method: oneOf(VAPORIZER_METHODS, {
    title: "Method",
    description: "total-flow if absent; rule-of-thumb is 3 x flow x percent, 3.3 for sevoflurane",
  }).default("total-flow"),
};

export const vaporizerUse = z.strictObject(setting);

export const vaporizerRefill = z.strictObject({
  ...setting,
  liquidML: amount({ title: "Liquid now", unit: "mL", description: "Liquid in the vaporizer now in mL" }),
  markML: amount({
    title: "Refill mark",
    unit: "mL",
    description: "Liquid at the refill mark in mL; 0 if absent",
  }).default(0),
});

export const absorbentLife = z.strictObject({
  massG: number({ title: "Absorbent", unit: "g", description: "Mass of the charge in g" }),
  capacityLPer100g: number({
    title: "Capacity",
    unit: "L/100 g",
    description: "Carbon dioxide taken up in L for each 100 g; 10 to 15 in practice",
  }),
  co2MLPerMin: number({ title: "Carbon dioxide", unit: "mL/min", description: "What the patient makes in mL/min" }),
  freshGasLPerMin: number({ title: "Fresh gas", unit: "L/min", description: "Fresh gas flow in L/min" }),
  minuteVentilationLPerMin: number({
    title: "Minute ventilation",
    unit: "L/min",
    description: "Minute ventilation in L/min",
  }),
  absorbedL: number({
    title: "Absorbed already",
    unit: "L",
    description: "Carbon dioxide that the charge has taken up already in L; 0 if absent",
  }).default(0),
});

export const co2Production = z.strictObject({
  weightKg: number({ title: "Weight", unit: "kg", description: "Body weight of an adult in kg" }),
});
