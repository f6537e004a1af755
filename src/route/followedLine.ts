import type { Position } from 'geojson';
import { InputError } from '../errors';
import { checkNumber } from '../internal/checkNumber';
import { checkPosition } from '../internal/checkPosition';
import { wrapLongitude } from '../internal/longitude';
import { isSwapSuspected } from './authoredPosition';
import { checkSide } from './checkSide';
import { offsetLine, wideOffsetMessage } from './offsetLine';
import { type LinePiece, linePiece, partOfLine, SAME_POINT } from './Piece';
import type { FollowOptions } from './RouteRecipe';
import type { RouteWarningReason } from './RouteWarning';

interface FollowedLine {
  readonly vertices: Position[];
  /** Whether a vertex is part of a curve, not a corner to be rounded. */
  readonly smooth: boolean[];
  readonly warnings: { readonly reason: RouteWarningReason; readonly message: string }[];
}

/**
 * The line that runs along, or beside, a stretch of an imported one.
 *
 * @throws {InputError} naming the call
 */
export function followedLine(step: { readonly line: readonly Position[] } & FollowOptions, call: string): FollowedLine {
  const { line, side, metres = 0, from = 0, to, reverse = false } = step;
  if (!Array.isArray(line)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${call} line`,
      rule: 'an array of positions',
      value: line,
    });
  }
  if (typeof reverse !== 'boolean') {
    throw new InputError({ reason: 'wrong-type', argument: `${call} reverse`, rule: 'true or false', value: reverse });
  }
  if (side !== undefined) checkSide(side, `${call} side`);
  checkNumber(metres, `${call} metres`, { min: 0 });
  if (side === undefined && metres > 0) {
    throw new InputError({ reason: 'missing', argument: `${call} side`, rule: 'given with metres', value: side });
  }
  const vertices = stretchOf(line, from, to, call);
  if (reverse) vertices.reverse();
  const swapped = vertices.some((position, i) => i > 0 && isSwapSuspected(vertices[i - 1], position));
  const warnings: FollowedLine['warnings'] = swapped
    ? [{ reason: 'swap-suspected', message: `${call} line leaps to where longitude and latitude would be exchanged.` }]
    : [];
  if (metres === 0) return { vertices, smooth: vertices.map(() => false), warnings };
  const beside = offsetLine(vertices, side!, metres);
  if (beside.wide.length > 0) {
    warnings.push({ reason: 'wide-offset', message: wideOffsetMessage(metres, beside.metres) });
  }
  return { vertices: beside.vertices, smooth: beside.smooth, warnings };
}

function stretchOf(line: readonly Position[], from: number, to: number | undefined, call: string): Position[] {
  checkNumber(from, `${call} from`, { min: 0 });
  if (to !== undefined) checkNumber(to, `${call} to`, { min: 0 });
  const positions = line.map((position, i): Position => {
    checkPosition(position, `${call} line[${i}]`);
    return [wrapLongitude(position[0]) + 0, position[1] + 0];
  });
  const whole = from === 0 && to === undefined;
  const pieces: LinePiece[] = [];
  let length = 0;
  for (let i = 1; i < positions.length; i++) {
    if (whole && (positions[i][0] !== positions[i - 1][0] || positions[i][1] !== positions[i - 1][1])) length = 1;
    if (whole) continue;
    const piece = linePiece(positions[i - 1], positions[i], true, -1);
    length += piece.length;
    pieces.push(piece);
  }
  if (!(length > SAME_POINT)) {
    throw new InputError({
      reason: 'too-few',
      argument: `${call} line`,
      rule: 'a line of at least 2 points',
      value: line,
    });
  }
  if (whole) return positions;
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
  const stretch: Position[] = [];
  let along = 0;
  for (const piece of pieces) {
    const [begin, finish] = [Math.max(from - along, 0), Math.min(end - along, piece.length)];
    if (finish > begin) {
      const part = partOfLine(piece, begin, finish);
      if (stretch.length === 0) stretch.push(part.from);
      stretch.push(part.to);
    }
    along += piece.length;
  }
  return stretch;
}
