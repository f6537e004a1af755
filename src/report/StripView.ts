import type { Place, Strand } from './reportModel';

/** One panel of a strip chart. */
export interface StripRow {
  readonly label: string;
  readonly strands: readonly Strand[];
  /** Metres along-track; all rows of a chart are equally long or nearly so. */
  readonly from: number;
  readonly to: number;
}

/** A row with the scales it is drawn by, in pixels of its panel. */
export interface StripPanel extends StripRow {
  readonly x: (alongTrack: number) => number;
  readonly y: (offset: number) => number;
  readonly width: number;
  readonly height: number;
  /** Metres to both sides that it shows. */
  readonly reach: number;
}

/** What of a strip chart to draw. */
export interface StripView {
  readonly width: number;
  readonly title: string;
  readonly rows: readonly StripRow[];
  readonly rowHeight: number;
  readonly places: readonly Place[];
  /** Bands and names of the sections; a strip of one section needs none. */
  readonly sections: 'named' | 'none';
  /** Metres counted from the route's start, or from each row's own. */
  readonly count: 'from start' | 'from row';
  readonly key: 'below' | 'none';
}
