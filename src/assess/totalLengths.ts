import type { AssessmentRow, TotalLength } from './Assessment';
import type { NamedPlaced } from './NamedPlaced';
import type { RouteGrid } from './RouteGrid';

/**
 * Each recording's total length error beside the errors of its stretches, which cancel in it. Each metre counts once: as part
 * of the innermost section it is in, of those in one another, or of what lies between two sections.
 */
export function totalLengths(
  grid: RouteGrid,
  judged: readonly NamedPlaced[],
  rows: readonly AssessmentRow[],
): TotalLength[] {
  const { count, section: sections, excluded, width } = grid;
  const wholes = new Map(rows.flatMap((row) => (row.section === null ? [[row.recording, row]] : [])));
  return judged.flatMap(({ name, placed }): TotalLength[] => {
    const whole = wholes.get(name)!;
    if (whole.recordedLength === null || whole.lengthError === null) return [];
    const { recorded, turnTerm, wiggleTerm, offset } = placed;
    const parts = new Map<string, Part>();
    let between = 0;
    let part: Part | undefined;
    let before = sections[0];
    for (let k = 0; k < count; k++) {
      const section = sections[k];
      if (section < 0 && before >= 0) between++;
      if (section !== before) part = undefined;
      before = section;
      if (excluded[k] === 1) continue;
      if (!part) {
        const key = section < 0 ? `between ${between}` : `section ${section}`;
        part = parts.get(key) ?? { error: 0, turn: 0, wiggle: 0, covered: false };
        parts.set(key, part);
      }
      part.error += recorded[k] - width[k];
      part.turn += turnTerm[k];
      part.wiggle += wiggleTerm[k];
      part.covered ||= !Number.isNaN(offset[k]);
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
