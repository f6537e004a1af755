import type { Position } from 'geojson';
import type { MarkOptions, Provenance, RouteWarningReason, SectionOptions } from '../model';
import type { Followed } from './movedOver';
import type { Piece } from './Piece';

/** A section while the line is drawn: nodes are the ends of pieces, counted from 0 at the start. */
export interface DraftSection extends SectionOptions {
  readonly name: string;
  /** The call that opened it, for errors. */
  readonly call: string;
  readonly fromNode: number;
  /** Unset while it is open. */
  toNode?: number;
  readonly lap?: number;
}

export interface DraftMark extends MarkOptions {
  readonly name: string;
  readonly node: number;
  readonly lap?: number;
}

export interface DraftWarning {
  readonly reason: RouteWarningReason;
  readonly fromNode: number;
  readonly toNode: number;
  readonly message: string;
}

/** A line as it is drawn, call by call, before corners are rounded and vertices set. */
export interface Draft {
  start?: Position;
  /** Direction of travel at the pen in degrees, once there is one. */
  azimuth?: number;
  readonly pieces: Piece[];
  /** The line that the pen is beside, when the last call that drew followed one. */
  followed?: Followed;
  readonly sections: DraftSection[];
  /** Names of sections with their lap, as JSON: no two have the same. */
  readonly sectionNames: Set<string>;
  /** Metres: radius of the corners that state their own, by node. */
  readonly cornerRadii: Map<number, number>;
  /** Index of the section that is open; -1 none. */
  openSection: number;
  readonly marks: DraftMark[];
  readonly provenances: Provenance[];
  /** Index of the provenance in force; -1 none. */
  origin: number;
  readonly warnings: DraftWarning[];
  /** Positions given by the author, in order, and whether they have fewer than 6 decimals. */
  readonly authored: { readonly node: number; readonly coarse: boolean }[];
  /** Nodes where a lap begins or ends, inner laps before the outer one that they are part of. */
  readonly laps: { readonly fromNode: number; readonly toNode: number; readonly lap: number }[];
  /** Nodes where the first of several laps begins and the last ends. */
  readonly lapRuns: { readonly fromNode: number; readonly toNode: number; readonly count: number }[];
}

/** Where the pen is; undefined before the start. */
export function penOf(draft: Draft): Position | undefined {
  return draft.pieces.length === 0 ? draft.start : draft.pieces[draft.pieces.length - 1].to;
}
