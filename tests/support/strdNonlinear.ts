/**
 * NIST Statistical Reference Datasets, non-linear regression (www.itl.nist.gov/div898/strd/nls): data and certified values as copied into the
 * tests of public libraries; Thurber's were found in two, which agree digit by digit. Certified deviations are scaled by the residuals.
 */
export interface NonlinearSet {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  model(b: readonly number[], x: number): number;
  readonly starts: readonly (readonly number[])[];
  readonly certified: {
    readonly residualSumOfSquares: number;
    /** Estimate and standard deviation. */
    readonly estimates: readonly (readonly [value: number, sd: number])[];
  };
}

/** Lower difficulty, two unknowns. */
const MISRA_1A: NonlinearSet = {
  name: 'Misra1a',
  x: [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0],
  y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78],
  model: ([b1, b2], x) => b1! * (1 - Math.exp(-b2! * x)),
  starts: [[500, 1e-4], [250, 5e-4]],
  certified: {
    residualSumOfSquares: 1.2455138894e-1,
    estimates: [
      [2.3894212918e2, 2.7070075241],
      [5.5015643181e-4, 7.2668688436e-6],
    ],
  },
};

/** Higher difficulty, a ratio of cubics, seven unknowns. */
const THURBER: NonlinearSet = {
  name: 'Thurber',
  x: [
    -3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481, -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915,
    -0.714, -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010, 0.119, 0.377, 0.790, 0.963, 1.006, 1.115, 1.572, 1.841, 2.047, 2.200,
  ],
  y: [
    80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101, 92.405, 95.854, 100.696, 101.060, 401.672, 390.724, 567.534, 635.316, 733.054, 759.087,
    894.206, 990.785, 1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962,
    1464.350, 1468.705, 1447.894, 1457.628,
  ],
  model: ([b1, b2, b3, b4, b5, b6, b7], x) => (b1! + x * (b2! + x * (b3! + x * b4!))) / (1 + x * (b5! + x * (b6! + x * b7!))),
  starts: [[1000, 1000, 400, 40, 0.7, 0.3, 0.03], [1300, 1500, 500, 75, 1, 0.4, 0.05]],
  certified: {
    residualSumOfSquares: 5.6427082397e3,
    estimates: [
      [1.28813968e3, 4.6647963344],
      [1.4910792535e3, 3.9571156086e1],
      [5.8323836877e2, 2.8698696102e1],
      [7.5416644291e1, 5.567537027],
      [9.6629502864e-1, 3.1333340687e-2],
      [3.9797285797e-1, 1.4984928198e-2],
      [4.9727297349e-2, 6.5842344623e-3],
    ],
  },
};

/** Higher difficulty, a ratio of quadratics; the first start lies a hundred times off. */
const MGH_09: NonlinearSet = {
  name: 'MGH09',
  x: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
  y: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
  model: ([b1, b2, b3, b4], x) => (b1! * (x * x + x * b2!)) / (x * x + x * b3! + b4!),
  starts: [[25, 39, 41.5, 39], [0.25, 0.39, 0.415, 0.39]],
  certified: {
    residualSumOfSquares: 3.0750560385e-4,
    estimates: [
      [1.9280693458e-1, 1.1435312227e-2],
      [1.9128232873e-1, 1.9633220911e-1],
      [1.2305650693e-1, 8.0842031232e-2],
      [1.3606233068e-1, 9.0025542308e-2],
    ],
  },
};

export const NONLINEAR_SETS: readonly NonlinearSet[] = [MISRA_1A, THURBER, MGH_09];
