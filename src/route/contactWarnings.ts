import { segmentAt } from '../index';
import type { Route, RouteWarning, Stretch } from '../model';
import type { Patience } from './nearEdges';
import { nextPasses } from './nextPasses';
import { linePiece } from './Piece';
import { passedLine } from './passedLine';
import type { RepeatedStretch } from './RepeatedStretch';
import { type SelfCrossing, selfCrossings } from './selfCrossings';

/** Metres: receivers stray that far, so that the first fixes fit the finish as well. */
const START_NEAR_END = 20;

/** Metres: nearer than this no receiver tells two passages apart. */
const REPEATED_WITHIN = 5;

/** Pairs of passes told one by one; crossings beyond them are counted, in one warning more. */
const MOST = 99;

/** Metres: a lap that ends no further than this from where it began is run by the next one again. */
const CLOSED = 1;

/** Boxes and edges looked at for each vertex, all told: ten times what laps, spirals and rows need. */
const PATIENCE = 1000;
const LEAST_PATIENCE = 1_000_000;

/**
 * Where the route comes back to itself: its finish at its start, stretches run again, crossings.
 *
 * @remarks n log n, and for a line that meets itself everywhere so many looks a vertex and no more.
 */
export function contactWarnings(route: Omit<Route, 'warnings'>): RouteWarning[] {
  const { lon, lat, length, alongTrack, laps } = route;
  const warnings: RouteWarning[] = [];
  const end = lon.length - 1;
  const apart = linePiece([lon[0], lat[0]], [lon[end], lat[end]], false, -1).length;
  // a route that is all laps comes back to its start as drawn
  const drawn = laps.some(({ from, to }) => from === 0 && to === length);
  if (apart < START_NEAR_END && length > 4 * START_NEAR_END && !drawn) {
    const message = `The finish lies ${apart.toFixed(1)} m from the start: fixes there fit both.`;
    warnings.push({ reason: 'start-near-end', from: 0, to: length, message });
  }
  const line = passedLine(route);
  const patience = (): Patience => ({ left: LEAST_PATIENCE + PATIENCE * lon.length });
  const [forPasses, forCrossings] = [patience(), patience()];
  const passes = nextPasses(line, REPEATED_WITHIN, forPasses);
  const reach = line.longest + 2 * REPEATED_WITHIN;
  for (const again of runAgain(passes, reach)) {
    if (!isAuthored(again, laps, reach)) warnings.push(repeatedWarning(again));
  }
  const again = [...passes.map(({ second }) => second), ...laterLaps(route)];
  const { crossings, rest } = selfCrossings(line, edgesWithin(again, alongTrack), MOST, forCrossings);
  for (const crossing of crossings) warnings.push(crossingWarning(crossing));
  const cutShort = forPasses.left <= 0 || forCrossings.left <= 0;
  if (rest !== undefined || cutShort) {
    const times = `${cutShort ? 'at least ' : ''}${rest?.count ?? 0} times more`;
    const message = cutShort
      ? `The route meets itself so often that not all of it was looked at; it crosses itself ${times}.`
      : `The route crosses itself ${times}.`;
    const { first = 0, lastSecond = length } = rest ?? {};
    warnings.push({ reason: 'self-crossing', from: first, to: lastSecond, count: rest?.count ?? 0, message });
  }
  return warnings;
}

/** A stretch with all that run along it later, one after the other. */
interface RunAgain extends RepeatedStretch {
  last: Stretch;
  count: number;
}

/** Joins pairs of next passes where the second of one is the first of another, to `reach` metres at either end. */
function runAgain(passes: readonly RepeatedStretch[], reach: number): RunAgain[] {
  const runs: RunAgain[] = [];
  /** By where the last stretch of a run begins, in steps of `reach`. */
  const byPlace = new Map<number, RunAgain[]>();
  for (const pass of passes) {
    const { first, second } = pass;
    const step = Math.floor(first.from / reach);
    let run: RunAgain | undefined;
    for (let k = step - 1; k <= step + 1 && run === undefined; k++) {
      const found = byPlace
        .get(k)
        ?.findIndex(({ last }) => Math.abs(last.from - first.from) <= reach && Math.abs(last.to - first.to) <= reach);
      if (found !== undefined && found >= 0) [run] = byPlace.get(k)!.splice(found, 1);
    }
    if (run === undefined) runs.push((run = { ...pass, last: second, count: 1 }));
    else {
      run.last = second;
      run.count++;
    }
    const place = Math.floor(second.from / reach);
    const there = byPlace.get(place);
    if (there === undefined) byPlace.set(place, [run]);
    else there.push(run);
  }
  return runs;
}

/** Whether a stretch comes again because the author drew laps; the way into them or out of them may run along one a while. */
function isAuthored({ first, second, direction }: RunAgain, laps: Route['laps'], reach: number): boolean {
  if (direction === 'opposite') return false;
  return laps.some(({ from, to, count }) => {
    const drawn = (stretch: Stretch) => Math.min(stretch.to, to) - Math.max(stretch.from, from);
    if (drawn(first) < (first.to - first.from) / 2 || drawn(second) < (second.to - second.from) / 2) return false;
    const lap = (to - from) / count;
    const shift = (second.from - first.from) / lap;
    return shift > 0.5 && Math.abs(shift - Math.round(shift)) * lap <= reach;
  });
}

function repeatedWarning({ first, second, last, direction, count }: RunAgain): RouteWarning {
  const way = direction === 'same' ? 'in the same direction' : 'in the opposite direction';
  const next = `from ${second.from.toFixed(1)} m to ${second.to.toFixed(1)} m, ${way}`;
  const message =
    count === 1
      ? `The stretch is run again ${next}.`
      : `The stretch is run ${count} times more: next ${next}, last from ${last.from.toFixed(1)} m to ${last.to.toFixed(1)} m.`;
  return { reason: 'repeated-stretch', ...first, count, message };
}

function crossingWarning({ first, second, lastFirst, lastSecond, count }: SelfCrossing): RouteWarning {
  const at = `${first.toFixed(1)} m and ${second.toFixed(1)} m`;
  const message =
    count === 1
      ? `The route crosses itself at ${at}.`
      : `The route crosses itself ${count} times, first at ${at}, last at ${lastFirst.toFixed(1)} m and ${lastSecond.toFixed(1)} m.`;
  return { reason: 'self-crossing', from: first, to: second, count, message };
}

/** What the author drew as laps, but for the first of each. */
function laterLaps({ lon, lat, alongTrack, laps }: Omit<Route, 'warnings'>): Stretch[] {
  return laps.flatMap(({ from, to, count }) => {
    const second = from + (to - from) / count;
    if (!(second < to)) return [];
    const [a, b] = [from, second].map((at) => {
      const edge = segmentAt(alongTrack, at);
      return at - alongTrack[edge] > alongTrack[edge + 1] - at ? edge + 1 : edge;
    });
    const apart = linePiece([lon[a], lat[a]], [lon[b], lat[b]], false, -1).length;
    return apart <= CLOSED ? [{ from: second, to }] : [];
  });
}

/** For each edge whether it lies within one of these stretches. */
function edgesWithin(stretches: readonly Stretch[], alongTrack: Float64Array): Uint8Array {
  const within = new Uint8Array(alongTrack.length - 1);
  const seconds = [...stretches].sort((a, b) => a.from - b.from);
  let k = 0;
  let until = -Infinity;
  for (let edge = 0; edge < within.length; edge++) {
    const middle = (alongTrack[edge] + alongTrack[edge + 1]) / 2;
    while (k < seconds.length && seconds[k].from <= middle) until = Math.max(until, seconds[k++].to);
    if (middle < until) within[edge] = 1;
  }
  return within;
}
