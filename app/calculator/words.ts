import { numberText } from "@/app/_parts/format";
import type { Group } from "@/lib/exchange/calculator/calculation";

export const GROUP_WORDS: Readonly<Record<Group, string>> = {
  gas: "Gas",
  vaporizer: "Vaporizer",
  absorbent: "Absorbent",
  sensor: "Sensor",
  dates: "Dates",
  safety: "Safety",
  identification: "Identification",
  units: "Units",
};

const OPTION_WORDS: Readonly<Record<string, string>> = {
  "70F-1atm": "70 F, one atmosphere",
  "15C": "15 C, 101.325 kPa",
  "nfpa-99-2005": "NFPA 99, edition 2005",
  "nfpa-99-2012": "NFPA 99, edition 2012",
  "iec-62353-2014": "IEC 62353:2014",
  "beyond-both": "beyond what gauge and temperature explain",
  "within-gauge": "within what the gauge may be off",
  "temperature-explains": "the temperature explains it",
  uA: "µA",
  mohm: "mΩ",
  ohm: "Ω",
  kohm: "kΩ",
  Mohm: "MΩ",
  cmH2O: "cmH₂O",
  C: "°C",
  F: "°F",
};

export const optionWords = (option: string): string => OPTION_WORDS[option] ?? option.replaceAll("-", " ");

const UNIT_WORDS: Readonly<Record<string, string>> = { C: "°C", F: "°F", cmH2O: "cmH₂O", d: "days", uA: "µA" };
export const unitWords = (unit: string): string => UNIT_WORDS[unit] ?? unit;

/** As finely as it helps a person: four figures or so; the line of the command line has them all. */
export function figure(value: number): string {
  const size = Math.abs(value);
  return numberText(value, size >= 100 || size === 0 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 4);
}

const KEY_WORDS: Readonly<Record<string, string>> = {
  byHand: "By hand",
  onVentilator: "On the ventilator",
  toAlarm: "to the alarm",
  toResidual: "to the residual",
  due: "Due",
  from: "First day in time",
  to: "Last day in time",
  elapsedMin: "Minutes between",
  lostL: "Litres lost",
  lostLPerHour: "Litres an hour",
  fromStoreL: "Litres from the store",
  leftInRoomsL: "Litres left in rooms",
  usableL: "Usable litres",
  waterCapacityL: "Water capacity, L",
  loadMLPerMin: "Load, mL/min",
  useMLPerHour: "Use, mL/h",
  at: "Meets the limit on day",
  passed: "Past it already",
  perDay: "Change a day",
  include: "In the program",
};

/** "liquidVolumeFraction": "Liquid volume fraction". */
export function keyWords(key: string): string {
  const known = KEY_WORDS[key];
  if (known) return known;
  const spaced = key.replace(/(?<=[a-z])[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replaceAll("-", " ");
  return spaced.charAt(0).toUpperCase() + spaced.slice(1);
}
