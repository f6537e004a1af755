/**
 * p-values of every two of five things, and what Shaffer's steps and the closed test over the ways to group them make of these.
 *
 * The p-values: S. García and F. Herrera, An Extension on "Statistical Comparisons of Classifiers over Multiple Data Sets" for
 * all Pairwise Comparisons, J. Mach. Learn. Res. 9 (2008) 2677, the data of its example, as printed in the manual of an R
 * package that ships them. The corrected ones: by hand from the definitions there (the factors of Shaffer's steps for five
 * things are 10, 6, 6, 6, 6, 4, 4, 3, 2, 1, from S(5) = {0, 1, 2, 3, 4, 6, 10}).
 */
export const garciaHerrera: readonly {
  readonly first: number;
  readonly second: number;
  readonly pValue: number;
  readonly shaffer: number;
  readonly closed: number;
}[] = [
  { first: 0, second: 3, pValue: 4.486991e-8, shaffer: 10 * 4.486991e-8, closed: 10 * 4.486991e-8 },
  { first: 2, second: 3, pValue: 1.736118e-7, shaffer: 6 * 1.736118e-7, closed: 6 * 1.736118e-7 },
  { first: 3, second: 4, pValue: 0.002880485, shaffer: 6 * 0.002880485, closed: 4 * 0.002880485 },
  { first: 0, second: 1, pValue: 0.004848763, shaffer: 6 * 0.004848763, closed: 6 * 0.004848763 },
  { first: 1, second: 3, pValue: 0.007963489, shaffer: 6 * 0.007963489, closed: 4 * 0.007963489 },
  { first: 1, second: 2, pValue: 0.010112334, shaffer: 6 * 0.007963489, closed: 3 * 0.010112334 },
  { first: 0, second: 4, pValue: 0.012763008, shaffer: 4 * 0.012763008, closed: 3 * 0.012763008 },
  { first: 2, second: 4, pValue: 0.024744672, shaffer: 3 * 0.024744672, closed: 3 * 0.012763008 },
  { first: 1, second: 4, pValue: 0.743971478, shaffer: 1, closed: 1 },
  { first: 0, second: 2, pValue: 0.8064959, shaffer: 1, closed: 1 },
];
