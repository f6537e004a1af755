import { lineVerdict } from '../assess';
import { type Interval, meanLimits, shareLimits, studentInterval, studentQuantile } from '../statistics';
import { type FigureByRun, type JoinedFigure, joinedFigures } from './joinedFigures';
import { mean } from './mean';
import type { Run } from './summaryRuns';
import type { FiguresRow } from './TakenFigures';
import type { SummaryRow } from './TestSummary';

/** Every receiver on one section over the runs. */
export function summaryRows(runs: readonly Run[], receivers: readonly string[], section: string | null): SummaryRow[] {
  const found = receivers.map((receiver) =>
    runs.map(({ byReceiver }) => {
      const member = byReceiver.get(receiver);
      return member?.told.get(section)?.rows.get(member.recording);
    }),
  );
  const rows = found.map((byRun) => byRun.flatMap((row) => row ?? []));
  const means = rows.map((mine) => mean(mine.flatMap((row) => row.meanAbsolute ?? [])) || 1);
  // as shares of the mean: a run with more scatter foretells more of it
  const distances = joinedFigures(
    rows.map((mine, i) =>
      figure(
        mine,
        ({ meanAbsolute }) => meanAbsolute && meanAbsolute / means[i],
        ({ foretold, meanAbsolute }) => foretold && meanAbsolute && (foretold.meanAbsolute / meanAbsolute) ** 2,
      ),
    ),
  );
  const biases = joinedFigures(
    rows.map((mine) =>
      figure(
        mine,
        (row) => row.bias,
        ({ foretold }) => (foretold?.bias == null ? null : foretold.bias ** 2),
      ),
    ),
  );
  const inside = shares(
    rows,
    (row) => row.insideCorridor,
    (row) => row.foretold?.insideSamples ?? null,
  );
  const correct = shares(
    rows,
    (row) => row.correctSide,
    (row) => row.foretold?.correctSamples ?? null,
  );
  const allowed = shares(
    rows,
    (row) => row.insideAllowed,
    (row) => row.foretold?.allowedSamples ?? null,
  );
  return receivers.map((receiver, i): SummaryRow => {
    const byRun = found[i].map((row) => row?.meanAbsolute ?? null);
    const known = byRun.filter((value) => value !== null);
    const spread = studentInterval(known);
    const distance = distances[i];
    const bias = biases[i];
    const interval95 =
      distance && meanLimits(spread!.mean, distance.variance * means[i] ** 2, studentQuantile(0.95, distance.degrees));
    const biasInterval95 = bias && plainLimits(bias);
    // a run that left the stretch out says nothing of how well it is covered
    const coverage = mean(rows[i].flatMap((row) => (row.referenceLength > 0 ? row.coverage : []))) ?? 0;
    const within = rows[i].flatMap(({ foretold }) => (foretold ? [foretold.meanAbsolute ** 2] : []));
    return {
      receiver,
      section,
      runs: known.length,
      meanAbsolute: spread?.mean ?? null,
      interval95,
      betweenRunSd: spread?.sd ?? null,
      withinRunSd: within.length > 0 ? Math.sqrt(mean(within)!) : null,
      bias: mean(rows[i].flatMap((row) => row.bias ?? [])),
      biasInterval95,
      insideCorridor: inside[i].mean,
      insideCorridorInterval95: inside[i].interval95,
      correctSide: correct[i].mean,
      correctSideInterval95: correct[i].interval95,
      insideAllowed: allowed[i].mean,
      insideAllowedInterval95: allowed[i].interval95,
      undecidedAllowed: mean(rows[i].flatMap((row) => row.undecidedAllowed ?? [])),
      coverage,
      ...lineVerdict({
        coverage,
        interval95,
        biasInterval95,
        halfWidth: rows[i].some(({ halfWidth }) => halfWidth === null)
          ? null
          : Math.max(0, ...rows[i].map(({ halfWidth }) => halfWidth!)),
        floor: Math.max(0, ...rows[i].map(({ sideLimit }) => sideLimit)),
      }),
      byRun,
    };
  });
}

function figure(
  rows: readonly FiguresRow[],
  figureOf: (row: FiguresRow) => number | null,
  varianceOf: (row: FiguresRow) => number | null,
): FigureByRun {
  const known = rows.filter((row) => figureOf(row) !== null);
  const variances = known.flatMap((row) => varianceOf(row) ?? []);
  return {
    values: known.map((row) => figureOf(row)!),
    foretold: variances.length === known.length ? variances : [],
  };
}

function plainLimits({ mean: middle, variance, degrees }: JoinedFigure): Interval {
  const half = studentQuantile(0.95, degrees) * Math.sqrt(variance);
  return [middle - half, middle + half];
}

/** A share over the runs, by receiver, and how sure it is. */
function shares(
  rows: readonly (readonly FiguresRow[])[],
  shareOf: (row: FiguresRow) => number | null,
  samplesOf: (row: FiguresRow) => number | null,
): { readonly mean: number | null; readonly interval95: Interval | null }[] {
  const means = rows.map((mine) => mean(mine.flatMap((row) => shareOf(row) ?? [])));
  const joinedShares = joinedFigures(
    rows.map((mine, i) =>
      figure(mine, shareOf, (row) => {
        const samples = samplesOf(row);
        return samples === null ? null : (means[i]! * (1 - means[i]!)) / samples;
      }),
    ),
  );
  return rows.map((mine, i) => {
    const one = joinedShares[i];
    const samples = mine.flatMap((row) => samplesOf(row) ?? []);
    if (one === null || samples.length === 0) return { mean: means[i], interval95: null };
    const worth =
      one.variance > 0 ? (one.mean * (1 - one.mean)) / one.variance : samples.reduce((sum, some) => sum + some, 0);
    return { mean: one.mean, interval95: shareLimits(one.mean, worth, studentQuantile(0.95, one.degrees)) };
  });
}
