import type { NamedPlaced } from './NamedPlaced';
import type { BinRange, RouteGrid } from './RouteGrid';
import { type ChanceMean, type ChancePair, RunScatter } from './RunScatter';

/** By bin and recording, NaN where it has no offset: what the means of a row are taken of. */
export interface JudgedColumns {
  readonly distance: Float64Array;
  readonly offset: Float64Array;
  /** 1 within the corridor, 0 beyond it; NaN where none is stated. */
  readonly inside: Float64Array;
  /** 1 on the reference's side of the centreline, 0 on the other and where the reference leaves it open; NaN without one. */
  readonly correct: Float64Array;
  /** 1 where the reference leaves the side open. */
  readonly open: Float64Array;
  /** Share of the recorded line inside the allowed areas; NaN without any. */
  readonly allowed: Float64Array;
}

const kinds = ['distance', 'offset', 'inside', 'correct', 'allowed'] as const;

/** What the figures of one run's recordings are off by, by name. */
export class RunChances {
  readonly columns: ReadonlyMap<string, JudgedColumns>;
  /** By name which column is whose. */
  readonly #places: ReadonlyMap<string, number>;
  /** Without those that no recording has anything of. */
  readonly #scatter: Readonly<Partial<Record<(typeof kinds)[number], RunScatter>>>;

  /** @param allowedOf - By name the share of each bin inside the allowed areas, where there are any. */
  constructor(
    grid: RouteGrid,
    members: readonly NamedPlaced[],
    centreline?: Float64Array,
    allowedOf: (name: string) => Float64Array | undefined = () => undefined,
  ) {
    this.#places = new Map(members.map(({ name }, i) => [name, i]));
    const columns = members.map(({ name, placed }) => judgedColumns(grid, placed.offset, centreline, allowedOf(name)));
    this.columns = new Map(members.map(({ name }, i) => [name, columns[i]]));
    this.#scatter = Object.fromEntries(
      kinds.flatMap((kind) => {
        const mine = columns.map((column) => column[kind]);
        if (mine.every((column) => column.every(Number.isNaN))) return [];
        return [[kind, new RunScatter(grid.width, mine, grid.parts, kind === 'distance' ? 'relative' : 'plain')]];
      }),
    );
  }

  mean(kind: (typeof kinds)[number], name: string, stretch: BinRange): ChanceMean | undefined {
    return this.#scatter[kind]?.mean(this.#places.get(name)!, stretch);
  }

  distances(first: string, second: string, stretch: BinRange): ChancePair | undefined {
    return this.#scatter.distance?.pair(this.#places.get(first)!, this.#places.get(second)!, stretch);
  }
}

function judgedColumns(
  grid: RouteGrid,
  offset: Float64Array,
  centreline: Float64Array | undefined,
  shares: Float64Array | undefined,
): JudgedColumns {
  const column = () => new Float64Array(grid.count).fill(Number.NaN);
  const [inside, correct, open, allowed] = [column(), column(), column(), column()];
  for (let k = 0; k < grid.count; k++) {
    if (Number.isNaN(offset[k])) continue;
    if (shares) allowed[k] = shares[k];
    if (!Number.isNaN(grid.halfWidth[k])) inside[k] = Math.abs(offset[k]) <= grid.halfWidth[k] ? 1 : 0;
    const centre = centreline?.[k] ?? Number.NaN;
    const doubt = grid.lateral95[k] || 0;
    // On a reference that may itself lie on either side, no side is the correct one.
    if (Number.isNaN(centre) || Math.abs(centre) <= doubt) continue;
    open[k] = Math.abs(offset[k] - centre) <= doubt ? 1 : 0;
    correct[k] = open[k] === 0 && offset[k] - centre > 0 === -centre > 0 ? 1 : 0;
  }
  return { distance: offset.map(Math.abs), offset, inside, correct, open, allowed };
}
