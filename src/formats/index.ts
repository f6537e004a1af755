export { type AnonymiseOptions, anonymise } from './anonymise';
export type { ReadOptions } from './ReadOptions';
export type { ReadIssue, Recording, RecordingFormat } from './Recording';
export { readGpx } from './readGpx';
export { readKml } from './readKml';
export { readTcx } from './readTcx';
export type { WriteOptions } from './WriteOptions';
export { writeGpx } from './writeGpx';
