import { RADIAN } from '../geodesy';
import { BOX, SearchDisc } from './SearchDisc';
import type { SegmentBoxes } from './SegmentBoxes';

/** Metres that a degree spans at most: the ellipsoid's largest radius of curvature, a / √(1 − e²). */
const DEGREE = 6399594 * RADIAN;

/** Metres looked around beyond what one search needs: some twenty fixes of a runner share what was gathered. */
const BEYOND = 60;

/** More leaves than this and it is quicker to go down the tree. */
const MOST = 48;

/**
 * The leaves about a position, gathered once for all the searches that follow close by.
 *
 * What was left out lies further away than the radius gathered for; from a place so much aside it is that much nearer at
 * the most, so that a search whose reach and whose way aside together stay below the radius needs no other leaf.
 */
export class Surroundings {
  readonly leaves = new Int32Array(MOST);
  count = 0;
  readonly #tree: SegmentBoxes;
  readonly #disc = new SearchDisc();
  readonly #open: number[] = [];
  #lon = 0;
  #lat = 0;
  #cosine = 1;
  #radius = -1;

  constructor(tree: SegmentBoxes) {
    this.#tree = tree;
  }

  /** Whether `leaves` hold all within so many metres of a position; they are gathered afresh where need be. */
  hold(lon: number, lat: number, radius: number): boolean {
    const aside = DEGREE * (Math.abs(lat - this.#lat) + this.#cosine * Math.abs(lon - this.#lon));
    if (!(radius + aside <= this.#radius)) this.#gather(lon, lat, radius + BEYOND);
    return this.count <= MOST;
  }

  #gather(lon: number, lat: number, radius: number): void {
    this.#lon = lon;
    this.#lat = lat;
    this.#cosine = Math.cos(lat * RADIAN);
    this.#radius = radius;
    const { boxes, child, childEnd } = this.#tree;
    const disc = this.#disc;
    disc.moveTo(lon, lat, this.#cosine);
    disc.narrow(radius);
    const open = this.#open;
    let waiting = 0;
    this.count = 0;
    open[waiting++] = 0;
    while (waiting > 0 && this.count <= MOST) {
      const entry = open[--waiting];
      if (child[entry] < 0) {
        this.leaves[this.count++] = entry;
        continue;
      }
      for (let c = child[entry]; c < childEnd[entry]; c++) if (disc.reachesBox(boxes, BOX * c)) open[waiting++] = c;
    }
  }
}
