/**
 * The 400 m standard track: World Athletics Track and Field Facilities Manual (2019), section 2.2.1, setting-out plan, and
 * Technical Rule 14: straights 84.39 m, kerb radius 36.50 m, lane width 1.22 m; lane 1 is measured 0.30 m from the kerb,
 * every other lane 0.20 m from the line inside it. The dimensions were read in public texts quoting the manual; the lengths of
 * the lanes are its stagger table, from memory, and equal the closed form 2 · 84.39 + 2π r to the printed centimetre.
 */
export const athleticsOval = {
  straight: 84.39,
  kerbRadius: 36.5,
  laneWidth: 1.22,
  lengths: [400.0, 407.04, 414.7, 422.37, 430.03, 437.7, 445.36, 453.03],
  /** Metres from the kerb to where a lane, counted from 1, is measured. */
  fromKerb: (lane: number) => (lane === 1 ? 0.3 : 1.22 * (lane - 1) + 0.2),
};
