import { ECCENTRICITY2 } from '../geodesy/ellipsoid';
import type { Route } from '../route/Route';
import { SegmentTree } from '../route/SegmentTree';
import { earthCentred } from './earthCentred';
import { placeOnEdge } from './placeOnEdge';

const DEGREE = 180 / Math.PI;

/** Metres between bins: less than a fix is good for, more than a walker moves in a second. */
const SPACING = 5;

/** On edges up to this many metres the chord stays within 5 mm of the geodesic. */
const SHORT_EDGE = 500;

/** A route cut into equal steps along it: the states of the lattice. */
export class Bins {
  readonly count: number;
  /** Metres from one bin to the next. */
  readonly spacing: number;
  /** Earth-centred metres. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** Over the line through the bins: segment `i` runs from bin `i` to bin `i + 1`. */
  readonly tree: SegmentTree;

  constructor(route: Route) {
    const { lon, lat, alongTrack, length } = route;
    const steps = Math.max(Math.ceil(length / SPACING), 1);
    this.count = steps + 1;
    this.spacing = length / steps;
    this.x = new Float64Array(steps + 1);
    this.y = new Float64Array(steps + 1);
    this.z = new Float64Array(steps + 1);
    const binLon = new Float64Array(steps + 1);
    const binLat = new Float64Array(steps + 1);
    let segment = 0;
    let [ax, ay, az] = earthCentred(lon[0], lat[0]);
    let [bx, by, bz] = earthCentred(lon[1], lat[1]);
    for (let bin = 0; bin <= steps; bin++) {
      const s = Math.min(bin * this.spacing, length);
      while (segment < lon.length - 2 && alongTrack[segment + 1] < s) {
        segment++;
        [ax, ay, az] = [bx, by, bz];
        [bx, by, bz] = earthCentred(lon[segment + 1], lat[segment + 1]);
      }
      const edge = alongTrack[segment + 1] - alongTrack[segment];
      const fraction = edge > 0 ? Math.min(Math.max((s - alongTrack[segment]) / edge, 0), 1) : 0;
      let [x, y, z] = [ax + fraction * (bx - ax), ay + fraction * (by - ay), az + fraction * (bz - az)];
      if (edge > SHORT_EDGE) {
        const [edgeLon, edgeLat] = placeOnEdge(route, segment, fraction);
        [x, y, z] = earthCentred(edgeLon, edgeLat);
      }
      this.x[bin] = x;
      this.y[bin] = y;
      this.z[bin] = z;
      binLon[bin] = Math.atan2(y, x) * DEGREE;
      binLat[bin] = Math.atan2(z, Math.hypot(x, y) * (1 - ECCENTRICITY2)) * DEGREE;
    }
    this.tree = new SegmentTree(binLon, binLat);
  }
}
