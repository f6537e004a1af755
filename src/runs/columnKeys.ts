import type { OptionKeys } from '../model';
import type { FiguresForetold, FiguresForetoldPairs } from './AssessedFigures';
import type { FiguresPair, FiguresRow } from './TakenFigures';

/** Members of rows and pairs; typed so that one that `combine` reads can't be forgotten. */
export const rowKeys: OptionKeys<FiguresRow> = {
  recording: true,
  section: true,
  meanAbsolute: true,
  bias: true,
  insideCorridor: true,
  insideAllowed: true,
  undecidedAllowed: true,
  correctSide: true,
  coverage: true,
  referenceLength: true,
  offRoute: true,
  halfWidth: true,
  sideLimit: true,
  foretold: true,
};
export const pairKeys: OptionKeys<FiguresPair> = {
  first: true,
  second: true,
  section: true,
  difference: true,
  floor: true,
  sparseGain: true,
  commonShare: true,
  foretold: true,
};

/** Members of what rows and pairs foretell, each a list of its own in figures. */
export const foretoldKeys: OptionKeys<FiguresForetold> = {
  meanAbsolute: true,
  bias: true,
  insideSamples: true,
  correctSamples: true,
  allowedSamples: true,
  degrees: true,
};
export const foretoldPairKeys: OptionKeys<FiguresForetoldPairs> = {
  first: true,
  second: true,
  firstVariance: true,
  secondVariance: true,
  variance: true,
  degrees: true,
};
