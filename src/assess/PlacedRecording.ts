import { bisectLeft, bisector, bisectRight } from 'd3-array';
import { earthCentred, pointToGeodesic } from '../geodesy';
import { surfaceDistance } from '../index';
import type { Recording, Snapped } from '../model';
import { medianOf } from '../statistics';
import type { Gap, GapReason } from './Assessment';
import { fixesInOrder } from './fixesInOrder';
import type { RouteGrid } from './RouteGrid';
import { valuesAbove } from './valuesAbove';

/** No runner is faster, in metres a second; a ride raises it to four times its own median. */
const FASTEST = 12;
/** A break over which the wearer moved less, in metres a second, was a pause. */
const STANDING = 0.3;

/** Metres: a foot nearer to an end of the route is the end. */
const AT_END = 1e-6;

/**
 * Metres before and behind a turn over which the offset is taken that lengthens or shortens it: at the vertex itself it is one
 * fix's scatter, and inside of a sharp corner the nearest place leaps from one leg to the other.
 */
const AT_TURN = 10;

/** Metres from an end of the route that count as there; so many usual steps where that is more, as the last fix may come early. */
const NEAR_END = 2;
const NEAR_STEPS = 1.5;

/** Where a fix at an end of the route lies: before the start below 0, after the finish beyond the length. */
interface EndFix {
  readonly along: number;
  readonly across: number;
}

/** A place passed: what the recording showed there the first time. */
export interface Passing {
  /** Metres of line recorded since joining the route. */
  readonly recorded: number;
  /** Seconds since the first fix; NaN without times. */
  readonly seconds: number;
}

/**
 * A recording spread over the bins of a route: the line between consecutive fixes that belong together, interpolated in
 * along-track and offset, each piece credited to the bin it runs through.
 */
export class PlacedRecording {
  readonly recording: Recording;
  readonly snapped: Snapped;
  /** Mean offset by bin, over the time spent in it; NaN where it has none. */
  readonly offset: Float64Array;
  /** Seconds since the first fix, when first passed; NaN where it has none. */
  readonly passed: Float64Array;
  /** Sums over the time spent in each bin: seconds, and offset, its size and its square times seconds. */
  readonly dwell: Float64Array;
  readonly dwellOffset: Float64Array;
  readonly dwellAbsolute: Float64Array;
  readonly dwellSquare: Float64Array;
  /** Metres recorded by bin, and the two terms of what they have too many. */
  readonly recorded: Float64Array;
  readonly turnTerm: Float64Array;
  readonly wiggleTerm: Float64Array;
  /** Metres by bin that were skipped while away from the route. */
  readonly skipped: Float64Array;
  /** 1 where the bin could also lie elsewhere on the route. */
  readonly ambiguous: Uint8Array;
  /** Metres from the fix before; NaN for the first. */
  readonly step: Float64Array;
  /** Seconds from the fix before; NaN for the first and where either has no time. */
  readonly wait: Float64Array;
  /** 1 where the line from the fix before is trusted. */
  readonly joined: Uint8Array;
  readonly gaps: readonly Gap[];
  readonly jumps: number;
  /** First and last fix on the route, -1 for none: of those beside its very ends the nearest in time. */
  readonly first: number;
  readonly last: number;
  /** Instant of the first fix with a time, milliseconds since the Unix epoch; NaN without times. */
  readonly begun: number;
  readonly #covered: Float64Array;
  /** How often each vertex of the route was passed, backwards taken off. */
  readonly #crossed: Int32Array;
  /** Where the first and the last fix lie, going on past the route's ends. */
  readonly #ends: { readonly first: EndFix; readonly last: EndFix };
  readonly #grid: RouteGrid;
  /** Metres along the route where gaps begin and where they end, in order. */
  readonly #gapEnds: { readonly low: Float64Array; readonly high: Float64Array };
  readonly #elapsed: Float64Array;
  /** Metres of line recorded up to each fix since joining the route. */
  readonly #recordedTo: Float64Array;
  /** First and last trusted line that rises in or through each bin, by the fix at its end; the first beyond the last: none. */
  readonly #rises: { readonly first: Int32Array; readonly last: Int32Array };
  /** Fixes with a place, by that. */
  readonly #byPlace: Uint32Array;
  /** Metres short of an end that the first and last fix may lie and still have passed it. */
  readonly #slack: number;

  constructor(grid: RouteGrid, recording: Recording, snapped: Snapped) {
    this.#grid = grid;
    this.recording = recording;
    this.snapped = snapped;
    const n = recording.lon.length;
    const column = () => new Float64Array(grid.count);
    this.offset = column();
    this.passed = column().fill(Number.NaN);
    this.dwell = column();
    this.dwellOffset = column();
    this.dwellAbsolute = column();
    this.dwellSquare = column();
    this.recorded = column();
    this.turnTerm = column();
    this.wiggleTerm = column();
    this.skipped = column();
    this.ambiguous = new Uint8Array(grid.count);
    this.#covered = column();
    this.#crossed = new Int32Array(grid.route.lon.length);
    this.step = new Float64Array(n).fill(Number.NaN);
    this.wait = new Float64Array(n).fill(Number.NaN);
    this.#elapsed = new Float64Array(n).fill(Number.NaN);
    this.#recordedTo = new Float64Array(n);
    this.#rises = { first: new Int32Array(grid.count).fill(n), last: new Int32Array(grid.count).fill(-1) };
    this.joined = new Uint8Array(n);

    const { lon, lat, time } = recording;
    this.begun = time?.find((instant) => Number.isFinite(instant)) ?? Number.NaN;
    let [x, y, z] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      // by index, as taking lists apart makes objects
      const here = earthCentred(lon[i], lat[i]);
      const [fromX, fromY, fromZ] = [x, y, z];
      x = here[0];
      y = here[1];
      z = here[2];
      if (time) this.#elapsed[i] = (time[i] - this.begun) / 1000;
      if (i === 0) continue;
      if (time) this.wait[i] = (time[i] - time[i - 1]) / 1000;
      if (Number.isFinite(lon[i] + lat[i] + lon[i - 1] + lat[i - 1]))
        this.step[i] = surfaceDistance(fromX, fromY, fromZ, x, y, z);
    }
    const { alongTrack, state } = snapped;
    const onRoute = new Uint8Array(n);
    for (let i = 0; i < n; i++) if (state[i] === 'on' && Number.isFinite(alongTrack[i])) onRoute[i] = 1;
    const placed = (i: number) => onRoute[i] === 1;
    let first = -1;
    let last = -1;
    for (let i = 0; i < n; i++) {
      if (!placed(i)) continue;
      if (first < 0) first = i;
      last = i;
    }
    // Beyond an end the nearest place is the end itself: only the last fix before the start and the first after the finish
    // say when it was passed.
    const atStart = (i: number) => placed(i) && alongTrack[i] <= AT_END;
    const atFinish = (i: number) => placed(i) && alongTrack[i] >= grid.route.length - AT_END;
    for (let i = first; i >= 0 && i <= last && (atStart(i) || !placed(i)); i++) if (atStart(i)) first = i;
    for (let i = last; i > first && (atFinish(i) || !placed(i)); i--) if (atFinish(i)) last = i;
    this.first = first;
    this.last = last;
    this.#ends = { first: this.#endFix(first), last: this.#endFix(last) };

    const usualWait = usual(this.wait);
    const usualStep = usual(this.step);
    this.#slack = Math.max(NEAR_END, NEAR_STEPS * usualStep || 0);
    // a longer wait is a gap
    const longestWait = Number.isNaN(usualWait) ? Number.POSITIVE_INFINITY : Math.max(10, 5 * usualWait);
    const fastest = Math.max(FASTEST, Number.isNaN(usualWait) ? 0 : (4 * usualStep) / usualWait);
    const skipped = new Set(snapped.skips.map(({ fix }) => fix));
    const gaps: Gap[] = [];
    let jumps = 0;
    for (let i = 1; i < n; i++) {
      const step = this.step[i];
      const wait = this.wait[i];
      // 20 m of scatter may come on top of the travel between two fixes; untimed, five usual steps do for a clock.
      const reach = Number.isNaN(wait) ? Math.max(50, 5 * usualStep) : 20 + fastest * Math.max(wait, 0);
      const torn = !(step <= reach);
      const slipped =
        skipped.has(i) ||
        (placed(i) && placed(i - 1) && !(Math.abs(alongTrack[i] - alongTrack[i - 1]) <= Math.max(reach, 2 * step)));
      if (torn && !Number.isNaN(step)) jumps++;
      const reason: GapReason | undefined =
        recording.gapBefore[i] === 1
          ? wait > longestWait && step <= 20 + STANDING * wait
            ? 'pause'
            : 'break'
          : wait > longestWait
            ? 'silence'
            : torn || slipped
              ? 'jump'
              : undefined;
      if (reason === undefined) this.joined[i] = 1;
      else if (i > first && i <= last && first >= 0) {
        gaps.push({
          from: placed(i - 1) ? alongTrack[i - 1] : null,
          to: placed(i) ? alongTrack[i] : null,
          seconds: Number.isNaN(wait) ? null : wait,
          metres: Number.isNaN(step) ? 0 : step,
          reason,
        });
      }
    }
    this.gaps = gaps;
    const known = gaps.filter(({ from, to }) => from !== null || to !== null);
    const ends = known.map(({ from, to }): [number, number] => [from ?? to!, to ?? from!]);
    this.#gapEnds = {
      low: Float64Array.from(ends, ([from, to]) => Math.min(from, to)).sort(),
      high: Float64Array.from(ends, ([from, to]) => Math.max(from, to)).sort(),
    };
    this.jumps = jumps;
    // where it was last on the route: what it travels off it is credited there
    let left = first >= 0 ? alongTrack[first] : 0;
    for (let i = first + 1; i <= last && first >= 0; i++) {
      if (Number.isFinite(alongTrack[i - 1])) left = alongTrack[i - 1];
      if (recording.gapBefore[i] === 1 || Number.isNaN(this.step[i])) continue;
      if (placed(i) && placed(i - 1) && this.joined[i] === 1) this.#spread(i);
      else this.recorded[grid.binAt(left)] += this.step[i];
    }
    for (let k = 0; k < grid.count; k++) {
      // half of a bin must have been travelled for its offset to stand for it
      const covered = this.#covered[k] >= grid.width[k] / 2 && grid.excluded[k] === 0;
      this.offset[k] = covered && this.dwell[k] > 0 ? this.dwellOffset[k] / this.dwell[k] : Number.NaN;
    }
    this.#turn();
    this.#rise();
    this.#skip();
    this.#doubt();
    this.#byPlace = fixesInOrder(alongTrack, (i) => Number.isFinite(alongTrack[i]));
  }

  /** The fixes placed on a stretch, its ends included, in its direction. */
  fixesBetween(from: number, to: number): Uint32Array {
    const { alongTrack } = this.snapped;
    const { left, right } = bisector((i: number) => alongTrack[i]);
    return this.#byPlace.subarray(left(this.#byPlace, from), right(this.#byPlace, to));
  }

  /** How many gaps lie in a stretch, or in part. */
  gapsIn(from: number, to: number): number {
    if (!(from < to)) return 0;
    const { low, high } = this.#gapEnds;
    // none ends before the stretch and begins behind it too
    return bisectLeft(low, to) - bisectRight(high, from);
  }

  /** What was shown when a place was first passed; undefined where it wasn't. */
  passing(alongTrack: number): Passing | undefined {
    const { first, last } = this;
    if (first < 0) return undefined;
    // Ends so near are passed: the fix before the line is seldom on it.
    const ahead = this.along(first) - alongTrack;
    if (ahead >= 0 && ahead <= this.#slack) return { recorded: 0, seconds: this.#elapsed[first] };
    const bin = this.#grid.binAt(alongTrack);
    for (let i = this.#rises.first[bin]; i <= this.#rises.last[bin]; i++) {
      if (this.joined[i] !== 1) continue;
      const before = this.along(i - 1);
      const here = this.along(i);
      if (!(before < alongTrack && here >= alongTrack)) continue;
      const rest = (here - alongTrack) / (here - before);
      return {
        // at the very start rounding may leave less than nothing
        recorded: Math.max(0, this.#recordedTo[i] - rest * this.step[i]),
        seconds: this.#elapsed[i] - rest * this.wait[i],
      };
    }
    const short = alongTrack - this.along(last);
    if (short > 0 && short <= this.#slack) {
      return { recorded: this.#recordedTo[last], seconds: this.#elapsed[last] };
    }
    return undefined;
  }

  /** Adds up what was recorded, and notes in each bin which lines rise there. */
  #rise(): void {
    const { first, last, joined, step } = this;
    const grid = this.#grid;
    if (first < 0) return;
    // what was recorded before the start doesn't count
    const next = first + 1;
    const outside = joined[next] === 1 ? -this.along(first) / (this.along(next) - this.along(first)) : 0;
    let recorded = outside > 0 && outside <= 1 ? -outside * step[next] : 0;
    this.#recordedTo[first] = recorded;
    for (let i = next; i <= last; i++) {
      if (this.recording.gapBefore[i] !== 1 && step[i] >= 0) recorded += step[i];
      this.#recordedTo[i] = recorded;
      const before = this.along(i - 1);
      const here = this.along(i);
      if (joined[i] !== 1 || !(before < here)) continue;
      const end = grid.binAt(here);
      for (let k = grid.binAt(before); k <= end; k++) {
        if (this.#rises.last[k] < 0) this.#rises.first[k] = i;
        this.#rises.last[k] = i;
      }
    }
  }

  /** Credits what was skipped while away from the route to its bins. */
  #skip(): void {
    const grid = this.#grid;
    const { alongTrack, state } = this.snapped;
    /** How often every bin from here on was skipped whole, more than the one before. */
    const whole = new Int32Array(grid.count + 1);
    let before = Number.NaN;
    let away = false;
    let far = false;
    for (let i = this.first; i >= 0 && i <= this.last; i++) {
      if (state[i] === 'off') away = true;
      const here = alongTrack[i];
      if (!Number.isFinite(here)) continue;
      if (away && here > before) {
        const a = grid.binAt(before);
        const b = grid.binAt(here);
        if (a === b) this.skipped[a] += here - before;
        else {
          this.skipped[a] += grid.edges[a + 1] - before;
          this.skipped[b] += here - grid.edges[b];
          whole[a + 1]++;
          whole[b]--;
          far = true;
        }
      }
      before = here;
      away = false;
    }
    let times = 0;
    for (let k = 0; far && k < grid.count; k++) {
      times += whole[k];
      this.skipped[k] += times * grid.width[k];
    }
  }

  /** Marks the bins that could also lie elsewhere. */
  #doubt(): void {
    const grid = this.#grid;
    const { alongTrack, ambiguous } = this.snapped;
    for (const { firstFix, lastFix } of ambiguous) {
      for (let i = firstFix + 1; i <= lastFix; i++) {
        if (this.joined[i] !== 1 || Number.isNaN(alongTrack[i]) || Number.isNaN(alongTrack[i - 1])) continue;
        const a = grid.binAt(Math.min(alongTrack[i - 1], alongTrack[i]));
        const b = grid.binAt(Math.max(alongTrack[i - 1], alongTrack[i]));
        this.ambiguous.fill(1, a, b + 1);
      }
    }
  }

  /** Metres along the route of a fix, those of the first and the last going on past its ends; NaN without a place. */
  along(i: number): number {
    return i === this.first
      ? this.#ends.first.along
      : i === this.last
        ? this.#ends.last.along
        : this.snapped.alongTrack[i];
  }

  #across(i: number): number {
    return i === this.first
      ? this.#ends.first.across
      : i === this.last
        ? this.#ends.last.across
        : this.snapped.crossTrack[i];
  }

  /** Where a fix lies beside the first or last edge of the route, made endless. */
  #endFix(i: number): EndFix {
    const { alongTrack, crossTrack } = this.snapped;
    const { lon, lat, alongTrack: vertices, length } = this.#grid.route;
    const given = { along: alongTrack[i], across: crossTrack[i] };
    const start = alongTrack[i] <= AT_END;
    if (i < 0 || !(start || alongTrack[i] >= length - AT_END)) return given;
    let [a, b] = start ? [0, 1] : [lon.length - 2, lon.length - 1];
    while (start && b + 1 < lon.length && vertices[b] === vertices[a]) b++;
    while (!start && a > 0 && vertices[b] === vertices[a]) a--;
    if (vertices[b] === vertices[a]) return given;
    const { recording } = this;
    const point: [number, number] = [recording.lon[i], recording.lat[i]];
    const foot = pointToGeodesic(point, [lon[a], lat[a]], [lon[b], lat[b]]);
    const along = vertices[a] + foot.alongTrack;
    return (start ? along < 0 : along > length) ? { along, across: foot.crossTrack } : given;
  }

  /** Credits each turn that was passed with what the offset about it adds: forth and back cancel. */
  #turn(): void {
    const { count, middle, width, turn, route } = this.#grid;
    const { offset } = this;
    let low = 0;
    let high = 0;
    let metres = 0;
    let area = 0;
    for (let v = 0; v < turn.length; v++) {
      const at = route.alongTrack[v];
      for (; high < count && middle[high] <= at + AT_TURN; high++) {
        if (Number.isNaN(offset[high])) continue;
        metres += width[high];
        area += width[high] * offset[high];
      }
      for (; low < high && middle[low] < at - AT_TURN; low++) {
        if (Number.isNaN(offset[low])) continue;
        metres -= width[low];
        area -= width[low] * offset[low];
      }
      if (turn[v] === 0 || this.#crossed[v] === 0 || !(metres > 1e-6)) continue;
      this.turnTerm[this.#grid.binAt(at)] += (this.#crossed[v] * turn[v] * area) / metres;
    }
  }

  /** Credits the line from the fix before to the bins it runs through. */
  #spread(i: number): void {
    const grid = this.#grid;
    const { segment } = this.snapped;
    const { length } = grid.route;
    const from = this.along(i - 1);
    const to = this.along(i);
    const left = this.#across(i - 1);
    const change = this.#across(i) - left;
    const travelled = to - from;
    const step = this.step[i];
    const time = this.wait[i] >= 0 ? this.wait[i] : Number.isNaN(this.wait[i]) ? 1 : 0;

    let turnTerm = 0;
    const low = Math.min(segment[i - 1], segment[i]);
    const high = Math.max(segment[i - 1], segment[i]);
    for (let v = low + 1; v <= high; v++) {
      if (grid.turn[v] === 0) continue;
      const at = grid.route.alongTrack[v];
      const fraction = travelled === 0 ? 0.5 : Math.min(1, Math.max(0, (at - from) / travelled));
      const sign = Math.sign(segment[i] - segment[i - 1]);
      turnTerm += sign * grid.turn[v] * (left + fraction * change);
      this.#crossed[v] += sign;
    }
    const along = travelled + turnTerm;
    const wiggle = Math.sqrt(along * along + change * change) - along;

    const firstBin = grid.binAt(from);
    const lastBin = grid.binAt(to);
    const direction = lastBin < firstBin ? -1 : 1;
    for (let k = firstBin; ; k += direction) {
      const enter = k === firstBin ? clip(from, length) : direction > 0 ? grid.edges[k] : grid.edges[k + 1];
      const leave = k === lastBin ? clip(to, length) : direction > 0 ? grid.edges[k + 1] : grid.edges[k];
      const share = travelled === 0 ? 1 : (leave - enter) / travelled;
      const middle = travelled === 0 ? 0.5 : ((enter + leave) / 2 - from) / travelled;
      const offset = left + middle * change;
      // a step of no duration still says where the line ran
      const weight = Math.max(time * share, 1e-9);
      this.dwell[k] += weight;
      this.dwellOffset[k] += weight * offset;
      this.dwellAbsolute[k] += weight * Math.abs(offset);
      this.dwellSquare[k] += weight * offset * offset;
      this.recorded[k] += share * step;
      this.wiggleTerm[k] += share * wiggle;
      this.#covered[k] += Math.abs(leave - enter);
      if (Number.isNaN(this.passed[k]))
        this.passed[k] = this.#elapsed[i - 1] + middle * (this.#elapsed[i] - this.#elapsed[i - 1]);
      if (k === lastBin) break;
    }
  }
}

/** The median of what is above 0; NaN where nothing is. */
function usual(column: Float64Array): number {
  const known = valuesAbove(column, 0);
  return known.length > 0 ? medianOf(known) : Number.NaN;
}

const clip = (along: number, length: number) => Math.min(length, Math.max(0, along));
