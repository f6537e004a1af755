export { InputError, type InputErrorDetails, type InputErrorReason } from '../errors';
export { type DensifyOptions, densify } from './densify';
export { type DirectResult, direct } from './direct';
export { interpolate } from './interpolate';
export { type InverseResult, inverse } from './inverse';
export { lineLength } from './lineLength';
export { type LocalPlane, localPlane } from './localPlane';
