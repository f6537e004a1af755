import type { Content } from './element';

/** A drawing before it becomes a document of its own or a part of the report. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** What it shows, for those who can't see it and as the first thing a pointer tells. */
  readonly title: string;
  /** What is to be seen in it, in words. */
  readonly description: string;
  readonly content: Content;
  /**
   * Where places of the route lie in it, for pointing at one place in all pictures: evenly from the first place to the last.
   * `y` is null where a place is an upright line.
   */
  readonly walk?: {
    readonly along: readonly [from: number, to: number];
    readonly x: readonly number[];
    readonly y: readonly number[] | null;
  };
}
