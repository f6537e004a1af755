/** A line in metres of the plane or pixels of a picture, its coordinates in columns. */
export interface Trace {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}
