import type { AssessmentRow, TotalLength } from './Assessment';
import type { RouteGrid } from './RouteGrid';
import { SUMS } from './rowColumns';

/**
 * Each recording's total length error beside the errors of its stretches, which cancel in it. Each metre counts once: as part
 * of the innermost section it is in, of those in one another, or of what lies between two sections.
 *
 * @param judged - by name the sums of its row columns
 */
export function totalLengths(
  grid: RouteGrid,
  judged: ReadonlyMap<string, Float64Array>,
  rows: readonly AssessmentRow[],
): TotalLength[] {
  const wholes = new Map(rows.flatMap((row) => (row.section === null ? [[row.recording, row]] : [])));
  return [...judged].flatMap(([name, sums]): TotalLength[] => {
    const whole = wholes.get(name)!;
    if (whole.recordedLength === null || whole.lengthError === null) return [];
    const parts = new Map<string, Part>();
    let between = 0;
    let before = grid.section[0];
    for (const [p, { first }] of grid.parts.entries()) {
      const section = grid.section[first];
      if (section < 0 && before >= 0) between++;
      before = section;
      const [length, line, turn, wiggle, , , covered] = sums.subarray(p * SUMS);
      const key = section < 0 ? `between ${between}` : `section ${section}`;
      const part = parts.get(key) ?? { error: 0, turn: 0, wiggle: 0, covered: false };
      parts.set(key, part);
      part.error += line - length;
      part.turn += turn;
      part.wiggle += wiggle;
      part.covered ||= covered > 0;
    }
    const known = [...parts.values()].filter(({ covered }) => covered);
    const errors = known.map(({ error }) => error);
    return [
      {
        recording: name,
        recordedLength: whole.recordedLength,
        referenceLength: whole.referenceLength,
        lengthError: whole.lengthError,
        absoluteErrors: sum(errors.map(Math.abs)),
        cancellation: cancellation(errors),
        termCancellation: known.length < 2 ? null : cancellation(known.flatMap(({ turn, wiggle }) => [turn, wiggle])),
      },
    ];
  });
}

/** What is added up over a part of the route. */
interface Part {
  error: number;
  turn: number;
  wiggle: number;
  covered: boolean;
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function cancellation(values: readonly number[]): number | null {
  const sizes = sum(values.map(Math.abs));
  return values.length < 2 || sizes === 0 ? null : Math.abs(sum(values)) / sizes;
}
