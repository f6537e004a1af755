import type { AssessmentRow, TotalLength } from './Assessment';

/** Each recording's total length error beside the errors of its sections, which cancel in it. */
export function totalLengths(rows: readonly AssessmentRow[]): TotalLength[] {
  return rows.flatMap((whole): TotalLength[] => {
    if (whole.section !== null || whole.recordedLength === null || whole.lengthError === null) return [];
    const sections = rows.filter((row) => row.recording === whole.recording && row.section !== null);
    const errors = sections.flatMap(({ lengthError }) => (lengthError === null ? [] : [lengthError]));
    const terms = sections.flatMap(({ turnTerm, wiggleTerm }) =>
      turnTerm === null || wiggleTerm === null ? [] : [turnTerm, wiggleTerm],
    );
    return [
      {
        recording: whole.recording,
        recordedLength: whole.recordedLength,
        referenceLength: whole.referenceLength,
        lengthError: whole.lengthError,
        absoluteErrors: sum(errors.map(Math.abs)),
        cancellation: cancellation(errors),
        termCancellation: cancellation(terms),
      },
    ];
  });
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function cancellation(values: readonly number[]): number | null {
  const sizes = sum(values.map(Math.abs));
  return values.length < 2 || sizes === 0 ? null : Math.abs(sum(values)) / sizes;
}
