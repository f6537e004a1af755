import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import {
  checkChoice,
  checkNumber,
  checkOptions,
  checkPosition,
  InputError,
  type OptionKeys,
  type RecipeStep,
  type RouteWarningReason,
  SIDES,
} from '../model';
import { isCoarse, isSwapSuspected } from './authoredPosition';
import { checkSection } from './checkSection';
import { type Draft, penOf } from './Draft';
import { drawLine } from './drawLine';
import { drawReturn } from './drawReturn';
import { followedLine } from './followedLine';
import { movedOver } from './movedOver';
import { arcPiece, linePiece, step as travel } from './Piece';
import { NEARLY_MET, turnBeside } from './turnBeside';

type StepOf<C extends RecipeStep['call']> = Extract<RecipeStep, { call: C }>;
type DrawnCall = Exclude<RecipeStep['call'], 'offset' | 'slice' | 'reverse' | 'join'>;

const stepKeys: { [C in DrawnCall]: OptionKeys<StepOf<C>> } = {
  start: { call: true, position: true, azimuth: true },
  lineTo: { call: true, position: true },
  lineBy: { call: true, azimuth: true, distance: true },
  arc: { call: true, turn: true, radius: true, sweep: true },
  follow: { call: true, line: true, side: true, metres: true, from: true, to: true, reverse: true },
  moveOver: { call: true, side: true, metres: true, over: true },
  uTurn: { call: true, side: true, width: true },
  section: { call: true, name: true, halfWidth: true, environment: true, from: true, to: true, inside: true },
  endSection: { call: true },
  mark: { call: true, name: true, time: true, near: true },
  laps: { call: true, count: true, steps: true },
  outAndBack: { call: true, steps: true, returnBeside: true },
  provenance: { call: true, lateral95: true, source: true, date: true, licence: true, frame: true, epoch: true },
};

/** Calls that draw away from a line that was followed. */
const LEAVES_LINE: ReadonlySet<string> = new Set(['start', 'lineTo', 'lineBy', 'arc', 'uTurn']);

/** Metres: a straight line longer than this to a line that is followed, besides crossing from side to side, may be a leg forgotten. */
const BRIDGE = 10;

/** A lap that ends further than this from where it began, in metres, is warned of: the next one runs elsewhere. */
const OPEN_LAP = 1;

/**
 * Draws the steps one after another.
 *
 * @param at where the steps stand, for errors: `steps`
 * @param lap the lap being drawn, counted from 1 over all rounds of an outer one
 */
export function drawSteps(draft: Draft, steps: readonly RecipeStep[], at: string, lap?: number): void {
  if (!Array.isArray(steps)) {
    throw new InputError({ reason: 'wrong-type', argument: at, rule: 'an array of steps', value: steps });
  }
  steps.forEach((step, i) => {
    drawStep(draft, step, `${at}[${i}]`, lap);
  });
}

function drawStep(draft: Draft, step: RecipeStep, path: string, lap: number | undefined): void {
  const keys = (stepKeys as Partial<Record<string, OptionKeys<RecipeStep>>>)[step?.call];
  if (keys === undefined || !Object.hasOwn(stepKeys, step.call)) {
    const derived = ['offset', 'slice', 'reverse', 'join'].includes(step?.call);
    throw new InputError({
      reason: derived ? 'misplaced' : 'unknown-key',
      argument: derived ? `${path} ${step.call}` : `${path} call`,
      rule: derived ? 'the only step of its recipe' : `one of ${Object.keys(stepKeys).join(', ')}`,
      value: step?.call,
    });
  }
  const call = `${path} ${step.call}`;
  checkOptions(step, keys, call);
  if (LEAVES_LINE.has(step.call)) draft.followed = undefined;
  switch (step.call) {
    case 'start':
      if (penOf(draft) !== undefined) refuseMisplaced(call, 'the first leg', step.position);
      draft.start = positionOf(step.position, `${call} position`);
      draft.authored.push({ node: 0, coarse: isCoarse(draft.start) });
      if (step.azimuth !== undefined) draft.azimuth = checkNumber(step.azimuth, `${call} azimuth`);
      break;
    case 'lineTo': {
      const pen = startedPen(draft, call);
      const position = positionOf(step.position, `${call} position`);
      const from = draft.pieces.length;
      drawLine(draft, position, pen);
      const to = draft.pieces.length;
      draft.authored.push({ node: to, coarse: isCoarse(position) });
      if (from === to) warnOf(draft, 'near-duplicate', from, `${call} goes to where the line already is.`);
      if (isSwapSuspected(pen, position)) {
        const message = `${call} would lie near the point before with longitude and latitude exchanged.`;
        warnOf(draft, 'swap-suspected', from, message);
      }
      break;
    }
    case 'lineBy': {
      const pen = startedPen(draft, call);
      const azimuth = checkNumber(step.azimuth, `${call} azimuth`);
      drawLine(draft, travel(pen, azimuth, checkNumber(step.distance, `${call} distance`, { above: 0 })).to, pen);
      break;
    }
    case 'arc':
      checkNumber(step.radius, `${call} radius`, { above: 0 });
      checkNumber(step.sweep, `${call} sweep`, { above: 0 });
      checkChoice(step.turn, `${call} turn`, SIDES);
      addArc(draft, step, call);
      break;
    case 'uTurn': {
      checkChoice(step.side, `${call} side`, SIDES);
      const width = checkNumber(step.width, `${call} width`, { above: 0 });
      addArc(draft, { turn: step.side, radius: width / 2, sweep: 180 }, call);
      break;
    }
    case 'moveOver': {
      checkChoice(step.side, `${call} side`, SIDES);
      const metres = checkNumber(step.metres, `${call} metres`, { above: 0 });
      const over = checkNumber(step.over, `${call} over`, { above: 0 });
      const way = draft.followed && movedOver(draft.followed, step.side === 'right' ? metres : -metres, over);
      if (way !== undefined) {
        way.vertices.forEach((position, i) => {
          drawLine(draft, position, penOf(draft)!, i > 0 && way.corner[i - 1]);
        });
        draft.azimuth = way.azimuth;
        draft.followed = way.followed;
        break;
      }
      draft.followed = undefined;
      // Two arcs that meet halfway, each turned by twice the angle of the straight way across.
      const sweep = (2 * Math.atan(metres / over) * 180) / Math.PI;
      const radius = (over * over + metres * metres) / (4 * metres);
      addArc(draft, { turn: step.side, radius, sweep }, call);
      addArc(draft, { turn: step.side === 'left' ? 'right' : 'left', radius, sweep }, call);
      break;
    }
    case 'follow': {
      const { vertices: beside, smooth, warnings, followed } = followedLine(step, call);
      const vertices = turnBeside(draft, beside, followed.right);
      const from = draft.pieces.length;
      const reached = penOf(draft);
      const gap = reached === undefined ? 0 : linePiece(reached, vertices[0], false, -1).length;
      vertices.forEach((position, i) => {
        const pen = penOf(draft);
        if (pen === undefined) draft.start = position;
        // The end of the leg before stands for a beginning that nearly meets it.
        else if (i > 0 || gap > NEARLY_MET) drawLine(draft, position, pen, i === 0 || !smooth[i - 1]);
        if (i > 0 || gap <= BRIDGE + 2 * (step.metres ?? 0)) return;
        warnOf(draft, 'bridged-gap', from, `A straight line of ${gap.toFixed(1)} m leads to the line followed.`);
      });
      draft.followed = followed;
      const coarse = step.line.filter(isCoarse).length > step.line.length / 2;
      draft.authored.push({ node: from, coarse }, { node: draft.pieces.length, coarse });
      for (const { reason, message } of warnings) warnOf(draft, reason, from, message);
      break;
    }
    case 'section':
      addSection(draft, step, call, lap);
      break;
    case 'endSection':
      if (!draft.sections.some(({ toNode }) => toNode === undefined)) refuseMisplaced(call, 'after section', step.call);
      closeSections(draft, 0);
      break;
    case 'mark': {
      checkName(step.name, call);
      const { call: _, ...mark } = step;
      if (step.time !== undefined) checkNumber(step.time, `${call} time`);
      if (step.near !== undefined) checkPosition(step.near, `${call} near`);
      draft.marks.push({ ...mark, node: draft.pieces.length, ...(lap === undefined ? {} : { lap }) });
      break;
    }
    case 'laps': {
      checkNumber(step.count, `${call} count`, { min: 1, integer: true });
      for (let k = 1; k <= step.count; k++) {
        drawLap(draft, step.steps, path, lap === undefined ? k : (lap - 1) * step.count + k);
      }
      break;
    }
    case 'outAndBack': {
      if (step.returnBeside !== undefined) {
        checkOptions(step.returnBeside, { side: true, metres: true }, `${call} returnBeside`);
        checkChoice(step.returnBeside.side, `${call} returnBeside.side`, SIDES);
        checkNumber(step.returnBeside.metres, `${call} returnBeside.metres`, { above: 0 });
      }
      const fromNode = draft.pieces.length;
      const opened = draft.sections.length;
      drawSteps(draft, step.steps, `${path}.steps`, lap);
      if (draft.pieces.length === fromNode) refuseMisplaced(call, 'of at least one leg', step.steps.length);
      closeSections(draft, opened);
      drawReturn(draft, fromNode, opened, step.returnBeside);
      draft.followed = undefined;
      break;
    }
    case 'provenance': {
      const { call: _, ...provenance } = step;
      if (step.lateral95 !== undefined) checkNumber(step.lateral95, `${call} lateral95`, { min: 0 });
      if (step.epoch !== undefined) checkNumber(step.epoch, `${call} epoch`);
      for (const key of ['source', 'date', 'licence', 'frame'] as const) {
        const value: unknown = step[key];
        if (value !== undefined && typeof value !== 'string') {
          throw new InputError({ reason: 'wrong-type', argument: `${call} ${key}`, rule: 'a text', value });
        }
      }
      draft.origin = draft.provenances.push(provenance) - 1;
      break;
    }
  }
}

function drawLap(draft: Draft, steps: readonly RecipeStep[], path: string, lap: number): void {
  const fromNode = draft.pieces.length;
  const from = penOf(draft);
  const opened = draft.sections.length;
  drawSteps(draft, steps, `${path}.steps`, lap);
  const toNode = draft.pieces.length;
  if (toNode === fromNode) refuseMisplaced(`${path} laps`, 'of at least one leg', steps.length);
  closeSections(draft, opened);
  draft.laps.push({ fromNode, toNode, lap });
  const apart = linePiece(from ?? draft.start!, penOf(draft)!, false, -1).length;
  if (apart > OPEN_LAP) {
    warnOf(draft, 'open-lap', fromNode, `Lap ${lap} ends ${apart.toFixed(1)} m from where it began.`);
  }
}

/** Ends every section opened since, at the pen. */
function closeSections(draft: Draft, since: number): void {
  for (const section of draft.sections.slice(since)) section.toNode ??= draft.pieces.length;
}

function addSection(draft: Draft, step: StepOf<'section'>, call: string, lap: number | undefined): void {
  checkName(step.name, call);
  checkSection(step, call);
  const placed = step.from !== undefined || step.inside !== undefined;
  const { call: _, ...section } = step;
  if (draft.sections.some((other) => other.name === step.name && other.lap === lap)) {
    refuseMisplaced(`${call} name`, 'one not used before', step.name);
  }
  const node = draft.pieces.length;
  if (!placed) closeSections(draft, 0);
  draft.sections.push({
    ...section,
    call,
    fromNode: node,
    ...(placed ? { toNode: node } : {}),
    ...(lap === undefined ? {} : { lap }),
  });
}

function addArc(draft: Draft, arc: { turn: 'left' | 'right'; radius: number; sweep: number }, call: string): void {
  const pen = startedPen(draft, call);
  if (draft.azimuth === undefined) {
    refuseMisplaced(call, 'after a leg, which gives it its direction', penOf(draft));
  }
  const piece = arcPiece(pen, draft.azimuth!, arc, draft.origin);
  draft.pieces.push(piece);
  draft.azimuth = piece.endAzimuth;
}

function startedPen(draft: Draft, call: string): Position {
  const pen = penOf(draft);
  if (pen === undefined) refuseMisplaced(call, 'after start', 'the first call');
  return pen!;
}

function positionOf(position: Position, argument: string): Position {
  checkPosition(position, argument);
  return [wrapLongitude(position[0]) + 0, position[1] + 0];
}

/** Warns of what was drawn since a node. */
function warnOf(draft: Draft, reason: RouteWarningReason, fromNode: number, message: string): void {
  draft.warnings.push({ reason, fromNode, toNode: draft.pieces.length, message });
}

function checkName(name: unknown, call: string): void {
  if (typeof name !== 'string' || name === '') {
    throw new InputError({ reason: 'wrong-type', argument: `${call} name`, rule: 'a text', value: name });
  }
}

function refuseMisplaced(argument: string, rule: string, value: unknown): void {
  throw new InputError({ reason: 'misplaced', argument, rule, value });
}
