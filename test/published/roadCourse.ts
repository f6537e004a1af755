/**
 * World Athletics and AIMS, The Measurement of Road Race Courses (2nd edition, updated 2008): a course is measured along the
 * shortest possible route, 0.30 m from kerbs. The rule is from memory. The lengths are the closed form (r + 0.30) θ of a bend
 * of kerb radius r that turns by θ.
 */
export const roadCourse = {
  fromKerb: 0.3,
  bends: [
    { radius: 5, sweep: 90, length: 8.32522053201295 },
    { radius: 36.5, sweep: 180, length: 115.61060965210437 },
  ],
  /** Metres that one full turn is short when the kerb itself is measured. */
  shortByKerb: 1.8849555921538759,
};
