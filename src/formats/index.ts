export type { ReadIssue, Recording, RecordingFormat } from './Recording';
