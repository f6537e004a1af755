import { tieGroups } from '../statistics';
import type { SummaryOrder, SummaryPair, SummaryRow } from './TestSummary';

/** The receivers by mean distance; those not told apart share a letter. */
export function summaryOrder(
  section: string | null,
  rows: readonly SummaryRow[],
  pairs: readonly SummaryPair[],
  runs: number,
  balanced: (receiver: string) => number | null,
): SummaryOrder {
  const sorted = rows.filter((row) => row.meanAbsolute !== null).sort((a, b) => a.meanAbsolute! - b.meanAbsolute!);
  const names = sorted.map(({ receiver }) => receiver);
  const winner = (a: string, b: string) =>
    pairs.find(({ first, second }) => (first === a && second === b) || (first === b && second === a))?.closer ?? null;
  const ties = tieGroups(names.length, (i, j) => winner(names[i], names[j]) !== null);
  const where = section === null ? 'Over the whole route' : `On “${section}”`;
  const told = pairs.flatMap(({ first, second, closer, difference, interval95 }) => {
    if (closer === null) return [];
    const [low, high] = interval95!.map(Math.abs).sort((a, b) => a - b);
    const size = Math.abs(difference!).toFixed(1);
    return [
      `“${closer}” lay closer than “${closer === first ? second : first}” by ${size} m (${low.toFixed(1)} to ${high.toFixed(1)})`,
    ];
  });
  const said = told.length > 0 ? told.join('; ') : 'no difference between the receivers is shown';
  return {
    section,
    entries: sorted.map(({ receiver, meanAbsolute }, i) => ({
      receiver,
      meanAbsolute: meanAbsolute!,
      balancedMean: section === null ? balanced(receiver) : null,
      ties: ties[i],
      place: {
        best: 1 + names.filter((other) => other !== receiver && winner(receiver, other) === other).length,
        worst:
          names.length - names.filter((other) => other !== receiver && winner(receiver, other) === receiver).length,
      },
    })),
    sentence: `${where}: ${said}. ${runs} ${runs === 1 ? 'run' : 'runs'}.`,
  };
}
