import { bisector } from 'd3-array';
import type { NamedArea } from '../areas';
import type { AreaFigures, AssessmentRow, GroundMetres, Passage } from './Assessment';
import type { AreaEntry, GroundPassed, LineSums } from './groundPassed';
import type { BinRange } from './RouteGrid';

/** What is known of where a recorded line lay: by bin, and its passages. */
export interface GroundFound {
  readonly passed: GroundPassed;
  readonly passages: readonly Omit<Passage, 'number'>[];
  readonly areas: readonly NamedArea[];
  readonly timed: boolean;
}

/** The figures of a row that the areas decide; all null where none were given. */
export type GroundFigures = Pick<
  AssessmentRow,
  'insideAllowed' | 'undecidedAllowed' | 'outsideAllowed' | 'insideImpossible' | 'areas'
>;

/** How a recording stood to the areas on a stretch. */
export function groundFigures(
  found: GroundFound | undefined,
  stretch: { readonly from: number; readonly to: number; readonly range: BinRange },
): GroundFigures {
  if (!found) {
    return {
      insideAllowed: null,
      undecidedAllowed: null,
      outsideAllowed: null,
      insideImpossible: null,
      areas: null,
    };
  }
  const { passed, passages, areas, timed } = found;
  const { range } = stretch;
  const metresIn = ({ metres }: LineSums) => sumOf(metres, range);
  const told = (metres: number, seconds: number): GroundMetres => ({ metres, seconds: timed ? seconds : null });
  const both = (sums: LineSums) => told(metresIn(sums), sumOf(sums.seconds, range));
  const line = sumOf(passed.line, range);
  const share = (metres: number) => Math.min(1, metres / line);
  const times = passages.filter(({ area, from, to }) => area !== null && from < stretch.to && to > stretch.from);
  const { allowed, impossible } = passed;
  const sums = new Map<number, { metres: number; seconds: number; undecided: number }>();
  const { entries } = passed;
  for (let i = firstOf(entries, range.first); i < entries.length && entries[i].bin < range.end; i++) {
    const { area, inside, metres, seconds } = entries[i];
    let sum = sums.get(area);
    if (!sum) {
      sum = { metres: 0, seconds: 0, undecided: 0 };
      sums.set(area, sum);
    }
    if (inside) {
      sum.metres += metres;
      sum.seconds += seconds;
    } else sum.undecided += metres;
  }
  const some = line > 0;
  return {
    insideAllowed: allowed && some ? share(metresIn(allowed.inside)) : null,
    undecidedAllowed: allowed && some ? share(metresIn(allowed.undecided)) : null,
    outsideAllowed: allowed && some ? both(allowed.outside) : null,
    insideImpossible:
      impossible && some
        ? { ...both(impossible.inside), times: times.length, undecided: metresIn(impossible.undecided) }
        : null,
    areas: [...sums]
      .filter(([, { metres, undecided }]) => metres + undecided > LEAST)
      .sort(([a], [b]) => a - b)
      .map(([area, { metres, seconds, undecided }]): AreaFigures => {
        const { name, kind } = areas[area];
        return {
          area: name,
          kind,
          inside: share(metres),
          undecided: share(undecided),
          ...told(metres, seconds),
          times: kind === 'allowed' ? null : times.filter((passage) => passage.area === name).length,
        };
      }),
  };
}

const firstOf = bisector(({ bin }: AreaEntry) => bin).left;

/** Metres: less than this beside an area is the width of its edge. */
const LEAST = 1e-5;

function sumOf(column: Float64Array, { first, end }: BinRange): number {
  let sum = 0;
  for (let k = first; k < end; k++) sum += column[k];
  return sum;
}

/** By bin the share of the recorded line inside the allowed areas; NaN where none was recorded. */
export function allowedShares({ line, allowed }: GroundPassed): Float64Array | undefined {
  return allowed?.inside.metres.map((metres, k) => (line[k] > 0 ? Math.min(1, metres / line[k]) : Number.NaN));
}
