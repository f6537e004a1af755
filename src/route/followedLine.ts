import type { Position } from 'geojson';
import { checkChoice, checkNumber, type FollowOptions, InputError, type RouteWarningReason, SIDES } from '../model';
import { isSwapSuspected } from './authoredPosition';
import { besideLine, placesBeside } from './besideLine';
import type { Followed } from './movedOver';
import { wideOffsetMessage } from './offsetLine';
import { linePiece, SAME_POINT } from './Piece';
import { placeAlong } from './placeAlong';
import { positionOf } from './positionOf';

interface FollowedLine {
  readonly vertices: Position[];
  /** Whether a vertex is part of a curve, not a corner to be rounded. */
  readonly smooth: boolean[];
  readonly warnings: { readonly reason: RouteWarningReason; readonly message: string }[];
  /** Where on the line it ends. */
  readonly followed: Followed;
}

/**
 * The line that runs along, or beside, a stretch of an imported one.
 *
 * @throws {InputError} naming the call
 */
export function followedLine(step: { readonly line: readonly Position[] } & FollowOptions, call: string): FollowedLine {
  const { side, metres = 0, reverse = false } = step;
  if (!Array.isArray(step.line)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${call} line`,
      rule: 'an array of positions',
      value: step.line,
    });
  }
  if (typeof reverse !== 'boolean') {
    throw new InputError({ reason: 'wrong-type', argument: `${call} reverse`, rule: 'true or false', value: reverse });
  }
  if (side !== undefined) checkChoice(side, `${call} side`, SIDES);
  checkNumber(metres, `${call} metres`, { min: 0 });
  if (side === undefined && metres > 0) {
    throw new InputError({ reason: 'missing', argument: `${call} side`, rule: 'given with metres', value: side });
  }
  const line = Array.from(step.line, (position, i) => positionOf(position, `${call} line[${i}]`));
  const [from, to] = stretchOf(line, step, call);
  if (reverse) line.reverse();

  const right = side === 'left' ? -metres : metres;
  const beside = besideLine(line, right);
  const kept = Math.sign(right) * beside.metres;
  const begin = from === 0 ? [] : placesBeside(beside, kept, from);
  const end = to === line.length - 1 ? [] : placesBeside(beside, kept, to).slice(0, 1);
  const inner = [...beside.source.keys()].filter(
    (k) => (from === 0 || beside.source[k] > from) && (to === line.length - 1 || beside.source[k] < to),
  );
  const vertices = [...begin, ...inner.map((k) => beside.vertices[k]), ...end];
  const round = begin.length > 1;
  const smooth = [...begin.map(() => round), ...inner.map((k) => beside.smooth[k]), ...end.map(() => false)];

  const warnings: FollowedLine['warnings'] = [];
  if (vertices.some((position, i) => i > 0 && isSwapSuspected(vertices[i - 1], position))) {
    const message = `${call} line leaps to where longitude and latitude would be exchanged.`;
    warnings.push({ reason: 'swap-suspected', message });
  }
  if (beside.wide.some(([first, last]) => first < to && last > from)) {
    warnings.push({ reason: 'wide-offset', message: wideOffsetMessage(metres, beside.metres) });
  }
  return { vertices, smooth, warnings, followed: { line, place: to, right: kept } };
}

/** The ends of the stretch followed, in the direction of travel: vertex index and fraction of the edge after it. */
function stretchOf(
  line: readonly Position[],
  { from = 0, to, reverse }: FollowOptions,
  call: string,
): [from: number, to: number] {
  checkNumber(from, `${call} from`, { min: 0 });
  if (to !== undefined) checkNumber(to, `${call} to`, { min: 0 });
  const whole = from === 0 && to === undefined;
  const lengths = whole ? [] : line.slice(1).map((position, i) => linePiece(line[i], position, false, -1).length);
  const length = lengths.reduce((sum, edge) => sum + edge, 0);
  const moves = line.some(([longitude, latitude]) => longitude !== line[0][0] || latitude !== line[0][1]);
  if (!(whole ? moves : length > SAME_POINT)) {
    throw new InputError({
      reason: 'too-few',
      argument: `${call} line`,
      rule: 'a line of at least 2 points',
      value: line,
    });
  }
  if (whole) return [0, line.length - 1];
  // A millimetre past the end is rounding of whoever measured the line, not a place outside it.
  const end = Math.min(to ?? length, length);
  if ((to ?? 0) > length + 1e-3 || !(from < end)) {
    throw new InputError({
      reason: 'outside',
      argument: (to ?? 0) > length + 1e-3 ? `${call} to` : `${call} from`,
      rule: (to ?? 0) > length + 1e-3 ? `within the line's ${length.toFixed(3)} m` : `less than ${end}, where it ends`,
      value: (to ?? 0) > length + 1e-3 ? to : from,
    });
  }
  if (!reverse) return [placeAlong(lengths, from), placeAlong(lengths, end)];
  lengths.reverse();
  return [placeAlong(lengths, length - end), placeAlong(lengths, length - from)];
}
