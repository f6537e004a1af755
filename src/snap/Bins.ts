import { earthCentred } from '../geodesy';
import { placeOnEdge } from '../index';
import type { Route } from '../model';

/** Metres between bins: less than a fix is good for, more than a walker moves in a second. */
const SPACING = 5;

/** On edges up to this many metres the chord stays within 5 mm of the geodesic. */
const SHORT_EDGE = 500;

/** Less than this of a step, or of a metre, is rounding. */
const ROUNDING = 1e-6;

/** Cost of a metre of the route left out at either end, and of all that could be. */
const LEFT_OUT = 0.005;
const ALL_LEFT_OUT = 80;

/** Within so many metres of where a lap begins or ends a skip is likelier: beyond, e to the power of minus so much. */
const SEAM = 15;
const AMID = Math.exp(-5);

/** Two passes meet where they come so close, metres, and part where so much further on or back they lie further apart. */
const MEET = 5;
const PART_WITHIN = 60;
const PART = 15;

/** Of passes further on than this, metres, nobody asks: no skip leads there. */
const FURTHEST = 3_900;

/** So many bins ask together which they meet. */
const TOGETHER = 4;

/** What a skip weighs that doesn't begin or end where passes meet and part, at each of its ends. */
const ASIDE = Math.exp(-2);

/** A route cut into equal steps along it: the states of the lattice. */
export class Bins {
  readonly count: number;
  /** Metres from one bin to the next. */
  readonly spacing: number;
  /** Earth-centred metres. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** What a skip weighs from or to a bin beside one at the end of a lap: laps are left out and added as a whole. */
  readonly seam: Float32Array;
  /** What a path weighs that leaves so many bins out at an end of the route. */
  readonly leftOut: Float32Array;
  #partings: Float32Array | undefined;

  constructor(route: Route) {
    const { lon, lat, alongTrack, length } = route;
    const steps = Math.max(Math.ceil(length / SPACING), 1);
    this.count = steps + 1;
    this.spacing = length / steps;
    this.x = new Float64Array(steps + 1);
    this.y = new Float64Array(steps + 1);
    this.z = new Float64Array(steps + 1);
    let segment = 0;
    let from = earthCentred(lon[0], lat[0]);
    let to = earthCentred(lon[1], lat[1]);
    for (let bin = 0; bin <= steps; bin++) {
      const s = Math.min(bin * this.spacing, length);
      while (segment < lon.length - 2 && alongTrack[segment + 1] < s) {
        segment++;
        from = to;
        to = earthCentred(lon[segment + 1], lat[segment + 1]);
      }
      const edge = alongTrack[segment + 1] - alongTrack[segment];
      const fraction = edge > 0 ? Math.min(Math.max((s - alongTrack[segment]) / edge, 0), 1) : 0;
      if (edge > SHORT_EDGE) {
        const place = placeOnEdge(lon, lat, segment, fraction, edge);
        [this.x[bin], this.y[bin], this.z[bin]] = earthCentred(place.lon, place.lat);
      } else {
        this.x[bin] = from[0] + fraction * (to[0] - from[0]);
        this.y[bin] = from[1] + fraction * (to[1] - from[1]);
        this.z[bin] = from[2] + fraction * (to[2] - from[2]);
      }
    }
    this.seam = seamsOf(route, steps + 1, this.spacing);
    this.leftOut = new Float32Array(steps + 1).fill(Math.exp(-ALL_LEFT_OUT));
    for (let k = 0; k <= steps && LEFT_OUT * k * this.spacing < ALL_LEFT_OUT; k++) {
      this.leftOut[k] = Math.exp(-LEFT_OUT * k * this.spacing);
    }
  }

  /**
   * As `seam`, and more where two passes meet and part: a body leaves out a loop at its crossing. For whom doesn't know yet
   * what came after.
   *
   * @remarks Made when it is first asked for, in a time that goes with the bins and how many passes lie on one line.
   */
  get partings(): Float32Array {
    this.#partings ??= this.#withPartings();
    return this.#partings;
  }

  /**
   * Writes the bins within a distance of a place, both in earth-centred metres, ascending, and the square of the distance
   * to each; returns how many. Half a step more counts: between two bins the route is nearer than both.
   *
   * @param first - Only bins from this one on, up to `last`.
   * @remarks From a bin that lies so far off, the route comes near again after as many metres at the least: what lies between
   * isn't looked at.
   */
  near(
    x: number,
    y: number,
    z: number,
    distance: number,
    bin: number[],
    square: number[],
    first = 0,
    last = this.count - 1,
  ): number {
    const { x: binX, y: binY, z: binZ, spacing } = this;
    const limit = distance + spacing / 2;
    const square2 = limit * limit;
    let found = 0;
    for (let k = first; k <= last; ) {
      const dx = binX[k] - x;
      const dy = binY[k] - y;
      const dz = binZ[k] - z;
      const away = dx * dx + dy * dy + dz * dz;
      if (away <= square2) {
        bin[found] = k++;
        square[found++] = away;
      } else k += Math.max(Math.ceil((Math.sqrt(away) - limit) / spacing - ROUNDING), 1);
    }
    return found;
  }

  /** Square of the distance from a bin to a place, both in earth-centred metres. */
  square(bin: number, x: number, y: number, z: number): number {
    const dx = this.x[bin] - x;
    const dy = this.y[bin] - y;
    const dz = this.z[bin] - z;
    return dx * dx + dy * dy + dz * dz;
  }

  #withPartings(): Float32Array {
    const { count, spacing, seam } = this;
    const parting = new Uint8Array(count);
    const within = Math.round(PART_WITHIN / spacing);
    const found: number[] = [];
    const squares: number[] = [];
    const part = (bin: number, other: number) =>
      bin >= 0 && other < count && this.square(bin, this.x[other], this.y[other], this.z[other]) > PART * PART;
    const furthest = Math.floor(FURTHEST / spacing);
    const reach = (MEET + spacing / 2) ** 2;
    for (let first = 0; first < count; first += TOGETHER) {
      // what one of a few bins meets lies near to their middle
      const end = Math.min(first + TOGETHER, count);
      const middle = (first + end - 1) >> 1;
      const around = MEET + (end - 1 - middle) * spacing + ROUNDING;
      const [begin, last] = [first + within + 1, Math.min(end - 1 + furthest, count - 1)];
      const near = this.near(this.x[middle], this.y[middle], this.z[middle], around, found, squares, begin, last);
      for (let bin = first; bin < end; bin++) {
        const [x, y, z] = [this.x[bin], this.y[bin], this.z[bin]];
        for (let k = 0; k < near; k++) {
          const other = found[k];
          if (other <= bin + within || other > bin + furthest || this.square(other, x, y, z) > reach) continue;
          if (part(bin + within, other + within) || part(bin - within, other - within))
            parting[bin] = parting[other] = 1;
        }
      }
    }
    return seam.map((weight, bin) => (parting[bin] === 1 ? weight : ASIDE * weight));
  }
}

/** Where laps begin and end; on a route without laps every bin is as good. */
function seamsOf({ sections, length }: Route, count: number, spacing: number): Float32Array {
  const laps = sections.filter(({ lap }) => lap !== undefined);
  const seam = new Float32Array(count).fill(laps.length > 0 ? AMID : 1);
  laps.forEach(({ lap, from, to }, i) => {
    const ends = [...(laps[i - 1]?.lap === lap ? [] : [from]), ...(laps[i + 1]?.lap === lap ? [] : [to])];
    for (const end of ends) {
      const first = Math.round(Math.max(end - SEAM, 0) / spacing);
      seam.fill(1, first, Math.round(Math.min(end + SEAM, length) / spacing) + 1);
    }
  });
  return seam;
}
