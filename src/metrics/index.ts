export { InputError, type InputErrorDetails, type InputErrorReason } from '../errors';
export { type CircularError, type CircularErrorOptions, circularError } from './circularError';
export { type DirectedHausdorff, directedHausdorff } from './directedHausdorff';
export { discreteFrechet } from './discreteFrechet';
export { frechet } from './frechet';
export { type Hausdorff, hausdorff } from './hausdorff';
export type { Line, LineColumns } from './Line';
export { type OffsetStatistics, offsetStatistics } from './offsetStatistics';
export { withinFrechet } from './withinFrechet';
