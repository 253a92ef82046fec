/**
 * Drive gas of three ventilators on a test lung and the mean time that an E cylinder lasted to the low-supply alarm: a published study
 * (abstract read). Litres used to the alarm are its own figures multiplied.
 */
export const DRIVE_GAS_STUDY = [
  { litresPerHour: 302, minutes: 93, usedL: 468 },
  { litresPerHour: 599, minutes: 54, usedL: 539 },
  { litresPerHour: 564, minutes: 57, usedL: 536 },
] as const;
