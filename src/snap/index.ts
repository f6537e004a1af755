export type { Located } from './Located';
export type { AmbiguousStretch, FixState, Snapped } from './Snapped';
