import { turnBetween } from '../geodesy';
import type { RouteWarning, RouteWarningReason } from '../model';
import type { Draft } from './Draft';
import type { RoundedLine } from './roundCorners';
import { runsOf } from './runsOf';

/** Metres: between points nearer than this, drawn with 6 decimals (0.11 m), the direction is rounding. */
const NEAR_DUPLICATE = 0.1;

/** A turn sharper than so many degrees with a leg shorter than so many metres is a slip of the hand; with longer legs, an out-and-back. */
const SPIKE_TURN = 170;
const SPIKE_LEG = 30;

/** Metres: a leg longer than this is a corner forgotten, or needs saying that it is none. */
const LONG_LEG = 5000;

/** What the calls themselves give cause for: these warnings stay with the line whatever is made of it. */
export function drawnWarnings(
  draft: Draft,
  { tight, sharp }: RoundedLine,
  alongNode: readonly number[],
): RouteWarning[] {
  const { pieces } = draft;
  const stretch = (reason: RouteWarningReason, fromNode: number, toNode: number, message: string): RouteWarning => ({
    reason,
    from: alongNode[fromNode],
    to: alongNode[toNode],
    message,
  });
  const warnings = draft.warnings.map(({ reason, fromNode, toNode, message }) =>
    stretch(reason, fromNode, toNode, message),
  );
  let k = 0;
  for (const [first, last] of runsOf(tight.map(({ node }) => node))) {
    let radius = Number.POSITIVE_INFINITY;
    for (; k < tight.length && tight[k].node <= last; k++) radius = Math.min(radius, tight[k].radius);
    const message = `Legs are too short for the corner radius; corners are rounded with as little as ${radius.toFixed(2)} m.`;
    warnings.push(stretch('tight-corner', first, last, message));
  }
  for (const { node, radius } of sharp) {
    const rounded = radius > 0 ? `rounded with as little as ${radius.toFixed(2)} m` : 'not rounded';
    const message = `The turn is sharper than 150° and is ${rounded}; a U-turn makes a semicircle.`;
    warnings.push(stretch('sharp-turn', node, node, message));
  }
  const close: number[] = [];
  pieces.forEach((piece, i) => {
    if (piece.kind === 'arc' || !piece.corner) return;
    const before = pieces[i - 1];
    if (piece.length < NEAR_DUPLICATE) close.push(i);
    if (piece.length > LONG_LEG) {
      const message = `One straight leg of ${(piece.length / 1000).toFixed(1)} km: is a corner missing?`;
      warnings.push(stretch('long-leg', i, i + 1, message));
    }
    if (before?.kind !== 'line' || Math.min(before.length, piece.length) >= SPIKE_LEG) return;
    const turn = Math.abs(turnBetween(before.endAzimuth, piece.startAzimuth));
    if (turn > SPIKE_TURN) {
      warnings.push(stretch('spike', i, i, `The line turns by ${turn.toFixed(0)}° here, out to a point and back.`));
    }
  });
  for (const [first, last] of runsOf(close)) {
    const message = `Points lie within ${NEAR_DUPLICATE} m of each other: the direction between them is rounding.`;
    warnings.push(stretch('near-duplicate', first, last + 1, message));
  }
  const coarse = draft.authored.flatMap((point, i) => (point.coarse ? [i] : []));
  for (const [first, last] of runsOf(coarse)) {
    // One position in a hundred ends in zeros by chance.
    if (first === last && draft.authored.length > 1) continue;
    const message = 'Coordinates have fewer than 6 decimals: with 5 they come in steps of 1.1 m.';
    warnings.push(stretch('coarse-coordinates', draft.authored[first].node, draft.authored[last].node, message));
  }
  return warnings;
}
