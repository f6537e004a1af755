/**
 * ASPRS Positional Accuracy Standards for Digital Geospatial Data, edition 1 (2014), PE&RS 81(3) A1–A26, annex D, table
 * D.1: residuals of five check points and what the standard prints of them. From memory; the printed results follow from
 * the residuals.
 */
export const asprsFivePoints = {
  residuals: {
    x: [-0.14, -0.1, 0.017, -0.07, 0.13],
    y: [-0.07, -0.1, -0.07, 0.15, 0.12],
    z: [-0.071, 0.01, 0.102, -0.1, 0.087],
  },
  published: {
    mean: [-0.033, 0.006, 0.006],
    sampleDeviation: [0.108, 0.119, 0.091],
    rmse: [0.102, 0.106, 0.081],
    rmseR: 0.147,
    accuracyR: 0.255,
    accuracyZ: 0.16,
  },
} as const;

/** FGDC-STD-007.3-1998 (NSSDA), section 3.2.1 and appendix 3-A: the factors as printed there. */
export const nssda = { radial: 2.4477, ofRmseR: 1.7308, vertical: 1.96, leastRatio: 0.6 } as const;

/**
 * Circular normal error: radius in sigmas of one axis. Exact, √(−2 ln(1 − P)); the first three to four digits are printed
 * in Greenwalt and Schultz, Principles of error theory and cartographic applications, ACIC TR-96 (1962).
 */
export const circularNormal = {
  CEP50: 1.1774100225154747,
  CE90: 2.145966026289347,
  R95: 2.4477468306808166,
  ofDrms: { CEP50: 0.8325546111576977, CE90: 1.5174271293851465, R95: 1.7308183826022854 },
} as const;

/** Linear normal error in sigmas. Exact, inverse error function. */
export const linearNormal = {
  LE50: 0.6744897501960817,
  LE90: 1.6448536269514722,
  LE95: 1.959963984540054,
  meanAbsolute: 0.7978845608028654,
} as const;

/**
 * Radii of a bivariate normal error in sigmas of the larger axis, by the ratio of the smaller to it: numerical integration
 * in Python's scipy to 1e-12, made for this table.
 */
export const ellipticalNormal = [
  { ratio: 1, R50: 1.1774100225154747, R90: 2.145966026289346, R95: 2.44774683068087 },
  { ratio: 0.9, R50: 1.1180657479124003, R90: 2.0423599263413985, R95: 2.3317979832275078 },
  { ratio: 0.8, R50: 1.05769258225485, R90: 1.9471581004409793, R95: 2.230287285654902 },
  { ratio: 0.7, R50: 0.9962067456108926, R90: 1.862529686502441, R95: 2.14598112579478 },
  { ratio: 0.6, R50: 0.9336513864006436, R90: 1.7915223130259055, R95: 2.0813044765109066 },
  { ratio: 0.5, R50: 0.8704174282441797, R90: 1.7370799342737246, R95: 2.035858720285524 },
  { ratio: 0.4, R50: 0.8078527137416683, R90: 1.6991830577816596, R95: 2.0051372439036355 },
  { ratio: 0.3, R50: 0.7499351215423595, R90: 1.6738286635302204, R95: 1.9841962261303627 },
  { ratio: 0.2, R50: 0.7058538673421414, R90: 1.6573134898031843, R95: 1.9704075010446123 },
] as const;
