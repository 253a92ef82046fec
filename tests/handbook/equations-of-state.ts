/**
 * Values that the papers print, and two that are not theirs.
 */

/**
 * Air: density in mol/dm3 and pressure in MPa at a temperature in K, to the digits printed. Lemmon, Jacobsen, Penoncello and Friend 2000,
 * table of computer checks (from memory).
 */
export const AIR_PRINTED: readonly (readonly [kelvin: number, molPerDm3: number, megapascal: number])[] = [
  [140, 0.087718, 0.101325],
  [270, 0.045164, 0.101325],
  [400, 0.030461, 0.101325],
  [2000, 0.006092, 0.101325],
  [140, 19.81, 10],
  [270, 4.6064, 10],
  [400, 2.9202, 10],
  [2000, 0.59094, 10],
  [270, 47.327, 2000],
  [400, 45.208, 2000],
  [2000, 32.893, 2000],
];

/** Nitrous oxide at 311 K and 10 mol/dm3, in kPa: Lemmon and Span 2006, table of computer checks (from memory). */
export const NITROUS_OXIDE_PRINTED = { kelvin: 311, molPerDm3: 10, kilopascal: 7474.778 };

/** Pressure of each equation at its own reducing temperature and density, Pa: computed with an independent implementation. */
export const AT_REDUCING_POINT = { oxygen: 5_042_786, air: 3_785_753, "nitrous-oxide": 7_244_708 } as const;

/**
 * Second virial coefficient of nitrous oxide in cm3/mol, measured by the speed of sound: NIST table of gases for the semiconductor
 * industry. The equation was not fitted to it: they agree within 0.1.
 */
export const SECOND_VIRIAL_MEASURED: readonly (readonly [kelvin: number, cm3PerMol: number])[] = [
  [280, -152.4],
  [290, -141.4],
  [300, -131.5],
  [310, -122.5],
  [320, -114.3],
];

/** Second and third virial coefficients at 70 F, cm3/mol and cm6/mol2, computed with an independent implementation. */
export const VIRIAL_AT_70F = {
  oxygen: { b: -16.694, c: 958.3 },
  air: { b: -8.897, c: 1827.5 },
  "nitrous-oxide": { b: -137.073, c: 6029.9 },
} as const;

/** One litre of gas at the reference: molar volume in L/mol, computed with an independent implementation. */
export const MOLAR_VOLUME = {
  oxygen: { "70F-1atm": 24.12927, "15C": 23.62645 },
  air: { "70F-1atm": 24.1376, "15C": 23.63487 },
  "nitrous-oxide": { "70F-1atm": 24.00871, "15C": 23.50089 },
} as const;

/** Compressibility of oxygen at 21.1 C by gauge pressure in psi; Schmidt and Wagner 1985, computed, printed to 0.001. */
export const OXYGEN_COMPRESSIBILITY: readonly (readonly [psi: number, z: number])[] = [
  [200, 0.99],
  [500, 0.977],
  [1000, 0.959],
  [1900, 0.94],
  [2200, 0.938],
];
