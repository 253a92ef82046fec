import type { Fluid } from "./fluid";

/**
 * Dry air as one fluid. Valid from 59.75 K to 2,000 K and to 2,000 MPa. Synthetic medical air (21 to 22 % oxygen in nitrogen) is a
 * slightly different mixture.
 * error     of density about 0.1 % in this range (the paper, from memory)
 * source    Lemmon, E. W., Jacobsen, R. T, Penoncello, S. G., Friend, D. G., J. Phys. Chem. Ref. Data 29 (2000) 331-385,
 *           doi:10.1063/1.1285884. The coefficients were taken from two public transcriptions that agree; the paper was not read
 */
export const AIR: Fluid = {
  name: "air",
  molarMass: 28.9655,
  gasConstant: 8.31451,
  reducingTemperature: 132.6312,
  reducingDensity: 10_447.7,
  source:
    "Lemmon, E. W., Jacobsen, R. T, Penoncello, S. G., Friend, D. G.: Thermodynamic properties of air and mixtures of nitrogen, argon and oxygen from 60 to 2000 K at pressures to 2000 MPa. J. Phys. Chem. Ref. Data 29 (2000) 331-385",
  condensation: null,
  terms: [
    [0.118160747229, 1, 0, 0],
    [0.713116392079, 1, 0.33, 0],
    [-1.61824192067, 1, 1.01, 0],
    [0.0714140178971, 2, 0, 0],
    [-0.0865421396646, 3, 0, 0],
    [0.134211176704, 3, 0.15, 0],
    [0.0112626704218, 4, 0, 0],
    [-0.0420533228842, 4, 0.2, 0],
    [0.0349008431982, 4, 0.35, 0],
    [0.000164957183186, 6, 1.35, 0],
    [-0.101365037912, 1, 1.6, 1],
    [-0.17381369097, 3, 0.8, 1],
    [-0.0472103183731, 5, 0.95, 1],
    [-0.0122523554253, 6, 1.25, 1],
    [-0.146629609713, 1, 3.6, 2],
    [-0.0316055879821, 3, 6, 2],
    [0.000233594806142, 11, 3.25, 2],
    [0.0148287891978, 1, 3.5, 3],
    [-0.00938782884667, 3, 15, 3],
  ],
};
