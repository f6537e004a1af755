import type { Position } from 'geojson';
import {
  type Beside,
  checkChoice,
  checkMembers,
  checkNumber,
  checkString,
  InputError,
  type MemberKeys,
  type RecipeStep,
  type RouteWarningReason,
  SIDES,
} from '../model';
import { isCoarse, isSwapSuspected } from './authoredPosition';
import { checkDrafted } from './checkDrafted';
import { checkSection } from './checkSection';
import { type Draft, penOf } from './Draft';
import { drawLine } from './drawLine';
import { drawReturn } from './drawReturn';
import { followedLine } from './followedLine';
import { type DerivedCall, isDerived, type StepOf } from './isDerived';
import { movedOver } from './movedOver';
import { arcPiece, linePiece, step as travel } from './Piece';
import { positionOf } from './positionOf';
import { NEARLY_MET, turnBeside } from './turnBeside';

type DrawnCall = Exclude<RecipeStep['call'], DerivedCall>;

const stepKeys: { [C in DrawnCall]: MemberKeys<StepOf<C>> } = {
  start: { call: 'must', position: 'must', azimuth: 'may' },
  lineTo: { call: 'must', position: 'must', cornerRadius: 'may' },
  lineBy: { call: 'must', azimuth: 'must', distance: 'must' },
  arc: { call: 'must', turn: 'must', radius: 'must', sweep: 'must' },
  follow: {
    call: 'must',
    line: 'must',
    side: 'may',
    metres: 'may',
    from: 'may',
    to: 'may',
    reverse: 'may',
  },
  moveOver: { call: 'must', side: 'must', metres: 'must', over: 'must' },
  uTurn: { call: 'must', side: 'must', width: 'must' },
  section: {
    call: 'must',
    name: 'must',
    halfWidth: 'may',
    environment: 'may',
    from: 'may',
    to: 'may',
    inside: 'may',
  },
  endSection: { call: 'must' },
  mark: { call: 'must', name: 'must', time: 'may', near: 'may' },
  laps: { call: 'must', count: 'must', steps: 'must' },
  outAndBack: { call: 'must', steps: 'must', returnBeside: 'may' },
  provenance: {
    call: 'must',
    lateral95: 'may',
    source: 'may',
    date: 'may',
    licence: 'may',
    frame: 'may',
    epoch: 'may',
    drafted: 'may',
  },
};

/** Calls that draw away from a line that was followed. */
const LEAVES_LINE: ReadonlySet<string> = new Set(['start', 'lineTo', 'lineBy', 'arc', 'uTurn']);

/** More sections and marks than this are a slip of the count, not a route. */
const MAX_NAMES = 1e6;

/** So are more legs; 300 000 take some 300 MB while the route is drawn. */
const MAX_LEGS = 3e5;

/** Metres: a circle of a larger radius would go round the far side of the globe. */
const MAX_RADIUS = 1e7;

/** Degrees, 10 000 times round: more is a slip. */
const MAX_SWEEP = 3.6e6;

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
  for (let i = 0; i < steps.length; i++) drawStep(draft, steps[i], `${at}[${i}]`, lap);
}

function drawStep(draft: Draft, step: RecipeStep, path: string, lap: number | undefined): void {
  checkCall(step, path);
  const call = `${path} ${step.call}`;
  checkMembers(step, stepKeys[step.call] as MemberKeys<RecipeStep>, call, ' ');
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
      if (step.cornerRadius !== undefined) {
        draft.cornerRadii.set(to, checkNumber(step.cornerRadius, `${call} cornerRadius`, { min: 0 }));
      }
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
      if (draft.openSection === -1) refuseMisplaced(call, 'after section', step.call);
      closeSection(draft, 0);
      break;
    case 'mark': {
      checkString(step.name, `${call} name`, { min: 1 });
      const { call: _, ...mark } = step;
      if (step.time !== undefined) checkNumber(step.time, `${call} time`);
      if (step.near !== undefined) positionOf(step.near, `${call} near`);
      draft.marks.push({ ...mark, node: draft.pieces.length, ...(lap === undefined ? {} : { lap }) });
      break;
    }
    case 'laps': {
      checkNumber(step.count, `${call} count`, { min: 1, integer: true });
      const before = draft.pieces.length;
      const named = namedIn(draft);
      for (let k = 1; k <= step.count; k++) {
        drawLap(draft, step.steps, path, lap === undefined ? k : (lap - 1) * step.count + k);
        // Told by the first lap: the rest would take all memory first.
        const all = step.count / k;
        checkCount((draft.pieces.length - before) * all, `${call} count`, MAX_LEGS, 'legs');
        checkCount((namedIn(draft) - named) * all, call, MAX_NAMES, 'sections and marks');
      }
      draft.lapRuns.push({ fromNode: before, toNode: draft.pieces.length, count: step.count });
      break;
    }
    case 'outAndBack': {
      if (step.returnBeside !== undefined) {
        checkMembers<Beside>(step.returnBeside, { side: 'must', metres: 'must' }, `${call} returnBeside`);
        checkChoice(step.returnBeside.side, `${call} returnBeside.side`, SIDES);
        checkNumber(step.returnBeside.metres, `${call} returnBeside.metres`, { above: 0 });
      }
      const fromNode = draft.pieces.length;
      const opened = draft.sections.length;
      drawSteps(draft, step.steps, `${path}.steps`, lap);
      if (draft.pieces.length === fromNode) refuseMisplaced(call, 'of at least one leg', step.steps.length);
      closeSection(draft, opened);
      drawReturn(draft, fromNode, opened, step.returnBeside);
      draft.followed = undefined;
      break;
    }
    case 'provenance': {
      const { call: _, ...provenance } = step;
      if (step.lateral95 !== undefined) checkNumber(step.lateral95, `${call} lateral95`, { min: 0 });
      if (step.epoch !== undefined) checkNumber(step.epoch, `${call} epoch`);
      if (step.drafted !== undefined) checkDrafted(step.drafted, `${call} drafted`);
      for (const key of ['source', 'date', 'licence', 'frame'] as const) {
        if (step[key] !== undefined) checkString(step[key], `${call} ${key}`);
      }
      draft.origin = draft.provenances.push(provenance) - 1;
      break;
    }
  }
}

function namedIn({ sections, marks }: Draft): number {
  return sections.length + marks.length;
}

/** Refuses more of something than the laps of a route can have. */
function checkCount(count: number, argument: string, most: number, what: string): void {
  if (count <= most) return;
  throw new InputError({ reason: 'too-large', argument, rule: `up to ${most} ${what} in all its laps`, value: count });
}

function drawLap(draft: Draft, steps: readonly RecipeStep[], path: string, lap: number): void {
  const fromNode = draft.pieces.length;
  const from = penOf(draft);
  const opened = draft.sections.length;
  drawSteps(draft, steps, `${path}.steps`, lap);
  const toNode = draft.pieces.length;
  if (toNode === fromNode) refuseMisplaced(`${path} laps`, 'of at least one leg', steps.length);
  closeSection(draft, opened);
  draft.laps.push({ fromNode, toNode, lap });
  const apart = linePiece(from ?? draft.start!, penOf(draft)!, false, -1).length;
  if (apart > OPEN_LAP) {
    warnOf(draft, 'open-lap', fromNode, `Lap ${lap} ends ${apart.toFixed(1)} m from where it began.`);
  }
}

/** Ends the open section at the pen, if it is one of those from the index `since` on. */
function closeSection(draft: Draft, since: number): void {
  if (draft.openSection < since) return;
  draft.sections[draft.openSection].toNode = draft.pieces.length;
  draft.openSection = -1;
}

function addSection(draft: Draft, step: StepOf<'section'>, call: string, lap: number | undefined): void {
  checkString(step.name, `${call} name`, { min: 1 });
  checkSection(step, call);
  const placed = step.from !== undefined || step.inside !== undefined;
  const { call: _, ...section } = step;
  const key = JSON.stringify([step.name, lap]);
  if (draft.sectionNames.has(key)) refuseMisplaced(`${call} name`, 'one not used before', step.name);
  draft.sectionNames.add(key);
  const node = draft.pieces.length;
  if (!placed) {
    closeSection(draft, 0);
    draft.openSection = draft.sections.length;
  }
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
  checkNumber(arc.radius, `${call} radius`, { max: MAX_RADIUS });
  checkNumber(arc.sweep, `${call} sweep`, { max: MAX_SWEEP });
  const piece = arcPiece(pen, draft.azimuth!, arc, draft.origin);
  draft.pieces.push(piece);
  draft.azimuth = piece.endAzimuth;
}

function startedPen(draft: Draft, call: string): Position {
  const pen = penOf(draft);
  if (pen === undefined) refuseMisplaced(call, 'after start', 'the first call');
  return pen!;
}

/** Warns of what was drawn since a node. */
function warnOf(draft: Draft, reason: RouteWarningReason, fromNode: number, message: string): void {
  draft.warnings.push({ reason, fromNode, toNode: draft.pieces.length, message });
}

/** Refuses what is no call, and a call that makes a route of others. */
function checkCall(step: RecipeStep, path: string): asserts step is StepOf<DrawnCall> {
  const call: unknown = (step as RecipeStep | null | undefined)?.call;
  if (typeof step !== 'object' || step === null || Array.isArray(step)) {
    throw new InputError({ reason: 'wrong-type', argument: path, rule: 'an object with a call', value: step });
  }
  const argument = `${path} call`;
  if (call === undefined) throw new InputError({ reason: 'missing', argument, rule: 'given', value: call });
  checkString(call, argument);
  if (Object.hasOwn(stepKeys, call)) return;
  if (isDerived(step)) refuseMisplaced(`${path} ${call}`, 'the only step of its recipe', call);
  const rule = `one of ${Object.keys(stepKeys).join(', ')}`;
  throw new InputError({ reason: 'unknown-key', argument, rule, value: call });
}

function refuseMisplaced(argument: string, rule: string, value: unknown): void {
  throw new InputError({ reason: 'misplaced', argument, rule, value });
}
