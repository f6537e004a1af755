import { positionsOf } from '../geodesy';
import {
  type ArcOptions,
  type Beside,
  type FollowOptions,
  type GivenPosition,
  InputError,
  type Line,
  type LineToOptions,
  lineString,
  type MarkOptions,
  type Provenance,
  type RecipeStep,
  type Route,
  type RouteOptions,
  type SectionOptions,
  type Side,
} from '../model';
import { compileRecipe } from './compileRecipe';
import { plainCopy } from './plainCopy';

/** Laps within laps, each of which takes some of the stack. */
const MAX_DEPTH = 250;

/** The calls that draw a line, leg by leg. They only record; `build` checks and draws. */
export interface LegBuilder {
  /** Where the line begins; `azimuth` is the direction there, for an arc as the first leg. */
  start(position: GivenPosition, options?: { readonly azimuth?: number }): this;
  /** The geodesic to a position; the corner there may have a radius of its own. */
  lineTo(position: GivenPosition, options?: LineToOptions): this;
  /** The geodesic of so many metres in a direction, degrees clockwise from north. */
  lineBy(leg: { readonly azimuth: number; readonly distance: number }): this;
  /** An arc that leaves in the present direction. */
  arc(arc: ArcOptions): this;
  /**
   * Along an imported line, or beside it; a straight line leads there. As the first call it is the start too. Where the line
   * begins at the end of the leg before, the way beside turns with the corner: round its outside by an arc, elsewhere to
   * where the two ways cross.
   */
  follow(line: Line, options?: FollowOptions): this;
  /**
   * Over to one side by so many metres while `over` metres go by: along the line just followed where it goes on past the
   * stretch followed (`follow(street, { side: 'right', metres: 4, to: 200 })`, over 30 m, then `follow` again from 230),
   * else straight on. Two arcs either way, the direction at the end that of the line, or of the beginning.
   */
  moveOver(move: Beside & { readonly over: number }): this;
  /** A semicircle to one side; `width` is its diameter in metres. */
  uTurn(turn: { readonly side: Side; readonly width: number }): this;
  /**
   * Opens a section here, which the next one, or the end of the route or lap, closes. With `from` and `to`, or `inside`,
   * the section is that stretch, or what lies in that area, and opens nothing.
   */
  section(name: string, options?: SectionOptions): this;
  /** Closes the open section; what follows belongs to none. */
  endSection(): this;
  /** Names the present place, or the one nearest to a position. */
  mark(name: string, options?: MarkOptions): this;
  /** The same calls so many times over; sections and marks get their `lap`. */
  laps(count: number, build: (lap: LegBuilder) => unknown): this;
  /**
   * The line drawn, and back: on the same line, or beside it on one side, as seen on the way out, after a semicircle.
   * Sections of the way out get their like on the way back: "quay" and "quay, back".
   */
  outAndBack(build: (out: LegBuilder) => unknown, options?: { readonly returnBeside?: Beside }): this;
  /** Where the legs that follow come from, and how good they are; in force until the next. */
  provenance(provenance: Provenance): this;
}

/** Records calls; `build` turns them into a route. */
export interface RouteBuilder extends LegBuilder {
  build(): Route;
}

/**
 * A builder for the reference line, leg by leg.
 *
 * @example
 * routeBuilder().start([5, 60]).section('quay', { halfWidth: 5 }).lineTo([5.01, 60]).build().length // → 558.00…
 * routeBuilder({ cornerRadius: 3 }).start([5, 60]).lineBy({ azimuth: 0, distance: 100 }).lineBy({ azimuth: 90, distance: 50 }).build().length // → 148.71…
 * routeBuilder().start([5, 60]).lineTo([5.001, 60], { cornerRadius: 3 }).lineTo([5.001, 60.001]).build().arcs[0].radius // → 3
 * routeBuilder().arc({ turn: 'left', radius: 5, sweep: 90 }).build() // throws misplaced: steps[0] arc must be after start
 *
 * @throws {InputError} from `build`, naming the call by its number in the recipe, counted from 0: `steps[3] arc radius`
 */
export function routeBuilder(options: RouteOptions = {}): RouteBuilder {
  const steps: RecipeStep[] = [];
  const kept = plainCopy(options);
  return {
    ...recorder(steps),
    build: () => compileRecipe({ version: 1, options: plainCopy(kept), steps: plainCopy(steps) }),
  } as RouteBuilder;
}

function recorder(steps: RecipeStep[], depth = 0): LegBuilder {
  // What was passed is kept as it is, unknown keys too: building it says what is wrong with it, and where.
  function add(this: LegBuilder, call: string, ...parts: unknown[]): LegBuilder {
    // Not by assignment, which would lose a member called __proto__.
    const members = [...parts, { call }].flatMap((part) => Object.entries(part ?? {}));
    steps.push(plainCopy(Object.fromEntries(members)) as RecipeStep);
    return this;
  }
  return {
    start(position, options) {
      return add.call(this, 'start', options, { position });
    },
    lineTo(position, options) {
      return add.call(this, 'lineTo', options, { position });
    },
    lineBy(leg) {
      return add.call(this, 'lineBy', leg);
    },
    arc(arc) {
      return add.call(this, 'arc', arc);
    },
    follow(line, options) {
      return add.call(this, 'follow', options, { line: lineString(line) ?? positionsOf(line) });
    },
    moveOver(move) {
      return add.call(this, 'moveOver', move);
    },
    uTurn(turn) {
      return add.call(this, 'uTurn', turn);
    },
    section(name, options) {
      return add.call(this, 'section', options, { name });
    },
    endSection() {
      return add.call(this, 'endSection');
    },
    mark(name, options) {
      return add.call(this, 'mark', options, { name });
    },
    laps(count, build) {
      return add.call(this, 'laps', { count, steps: recorded(build, depth) });
    },
    outAndBack(build, options) {
      return add.call(this, 'outAndBack', options, { steps: recorded(build, depth) });
    },
    provenance(provenance) {
      return add.call(this, 'provenance', provenance);
    },
  } as LegBuilder;
}

function recorded(build: (builder: LegBuilder) => unknown, depth: number): RecipeStep[] {
  if (typeof build !== 'function') {
    throw new InputError({ reason: 'wrong-type', argument: 'build', rule: 'a function', value: build });
  }
  if (depth === MAX_DEPTH) {
    const rule = `laps and ways out within each other up to ${MAX_DEPTH} deep`;
    throw new InputError({ reason: 'too-large', argument: 'build', rule, value: depth + 1 });
  }
  const steps: RecipeStep[] = [];
  build(recorder(steps, depth + 1));
  return steps;
}
