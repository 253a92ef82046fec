import type { Fluid } from "./fluid";

/**
 * Oxygen. Valid from 54.361 K to 2,000 K and to 80 MPa; used here from -20 to 60 C and to 300 bar.
 * error     of density about 0.1 % in this range (the paper, from memory)
 * source    Schmidt, R., Wagner, W., Fluid Phase Equilibria 19 (1985) 175-200, doi:10.1016/0378-3812(85)87016-3; tables: Stewart, R. B.,
 *           Jacobsen, R. T, Wagner, W., J. Phys. Chem. Ref. Data 20 (1991) 917-1021, doi:10.1063/1.555897. The coefficients were
 *           taken from two public transcriptions that agree; the paper itself was not read
 */
export const OXYGEN: Fluid = {
  name: "oxygen",
  molarMass: 31.9988,
  gasConstant: 8.31434,
  reducingTemperature: 154.581,
  reducingDensity: 13_630,
  source:
    "Schmidt, R., Wagner, W.: A new form of the equation of state for pure substances and its application to oxygen. Fluid Phase Equilibria 19 (1985) 175-200",
  condensation: null,
  terms: [
    [0.3983768749, 1, 0, 0],
    [-1.846157454, 1, 1.5, 0],
    [0.4183473197, 1, 2.5, 0],
    [0.02370620711, 2, -0.5, 0],
    [0.09771730573, 2, 1.5, 0],
    [0.03017891294, 2, 2, 0],
    [0.02273353212, 3, 0, 0],
    [0.01357254086, 3, 1, 0],
    [-0.04052698943, 3, 2.5, 0],
    [0.0005454628515, 6, 0, 0],
    [0.0005113182277, 7, 2, 0],
    [2.953466883e-7, 7, 5, 0],
    [-8.687645072e-5, 8, 2, 0],
    [-0.2127082589, 1, 5, 2],
    [0.08735941958, 1, 6, 2],
    [0.127550919, 2, 3.5, 2],
    [-0.09067701064, 2, 5.5, 2],
    [-0.03540084206, 3, 3, 2],
    [-0.03623278059, 3, 7, 2],
    [0.0132769929, 5, 6, 2],
    [-0.0003254111865, 6, 8.5, 2],
    [-0.008313582932, 7, 4, 2],
    [0.002124570559, 8, 6.5, 2],
    [-0.0008325206232, 10, 5.5, 2],
    [-2.626173276e-5, 2, 22, 4],
    [0.002599581482, 3, 11, 4],
    [0.009984649663, 3, 18, 4],
    [0.002199923153, 4, 11, 4],
    [-0.02591350486, 4, 23, 4],
    [-0.1259630848, 5, 17, 4],
    [0.1478355637, 5, 18, 4],
    [-0.01011251078, 5, 23, 4],
  ],
};
