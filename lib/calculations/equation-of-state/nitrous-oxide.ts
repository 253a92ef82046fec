import type { Fluid } from "./fluid";

/**
 * Nitrous oxide, gas and liquid. Valid from 182.33 K to 525 K and to 50 MPa.
 * error     of density 0.1 % in gas and liquid away from the critical point, of vapor pressure 0.2 % (the paper, from memory); an older
 *           evaluation (ESDU 91022) has vapor pressures 0.12 to 0.16 % higher
 * source    Lemmon, E. W., Span, R., J. Chem. Eng. Data 51 (2006) 785-850, doi:10.1021/je050186n. The coefficients were taken from two
 *           public transcriptions that agree; the paper itself was not read
 */
export const NITROUS_OXIDE: Fluid = {
  name: "nitrous oxide",
  molarMass: 44.0128,
  gasConstant: 8.314472,
  reducingTemperature: 309.52,
  reducingDensity: 10_270,
  source:
    "Lemmon, E. W., Span, R.: Short fundamental equations of state for 20 industrial fluids. J. Chem. Eng. Data 51 (2006) 785-850",
  condensation: {
    criticalTemperature: 309.52,
    liquid: [
      [6.7919, 0.47],
      [-16.069, 0.72],
      [25.632, 1],
      [-20.755, 1.3],
      [7.1963, 1.6],
    ],
    vapor: [
      [-3.1287, 0.409],
      [-77.651, 1.91],
      [214.42, 2.33],
      [-478.09, 3],
      [751.85, 3.6],
      [-462.79, 4],
    ],
  },
  terms: [
    [0.88045, 1, 0.25, 0],
    [-2.4235, 1, 1.25, 0],
    [0.38237, 1, 1.5, 0],
    [0.068917, 3, 0.25, 0],
    [0.00020367, 7, 0.875, 0],
    [0.13122, 1, 2.375, 1],
    [0.46032, 2, 2, 1],
    [-0.0036985, 5, 2.125, 1],
    [-0.23263, 1, 3.5, 2],
    [-0.00042859, 1, 6.5, 2],
    [-0.04281, 4, 4.75, 2],
    [-0.023038, 2, 12.5, 3],
  ],
};
