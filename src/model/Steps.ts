/** How far long work is. */
export interface Progress {
  /** So many are done: never fewer than before of the same kind. */
  readonly done: number;
  /** So many there are; null while nobody knows, of a stream. */
  readonly of: number | null;
  /**
   * Of what: bytes of a document `received` (characters of one that comes as text), then what of it is `read` (characters, bytes
   * of a binary format, features of GeoJSON); `recordings` placed, `rows` measured, `pairs` compared; `assessments` taken in and
   * `sections` looked at over the runs; `parts` of a report drawn. One kind follows another.
   */
  readonly what: 'received' | 'read' | 'recordings' | 'rows' | 'pairs' | 'assessments' | 'sections' | 'parts';
}

/** Long work in steps: whoever drives it can rest wherever it yields, be told how far it is where that is yielded, or leave it. */
export type Steps<Result> = Generator<Progress | undefined, Result, undefined>;
