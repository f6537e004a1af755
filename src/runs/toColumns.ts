import type { AssessedFigures, FiguresPairs, FiguresRows } from './AssessedFigures';
import { foretoldKeys, foretoldPairKeys, pairKeys, rowKeys } from './columnKeys';
import type { TakenFigures } from './TakenFigures';

/** Figures as they are kept: rows and pairs by their members, recordings and sections by their numbers, so that no name stands twice. */
export function toColumns(figures: TakenFigures): AssessedFigures {
  const recordings = numbered(figures.recordings);
  const sections = numbered(figures.route.sections).set(null, null);
  const rows = figures.rows.map((row) => ({
    ...row,
    recording: recordings.get(row.recording),
    section: sections.get(row.section),
  }));
  const pairs = figures.pairs.map((pair) => ({
    ...pair,
    first: recordings.get(pair.first),
    second: recordings.get(pair.second),
    section: sections.get(pair.section),
  }));
  return {
    ...figures,
    rows: { ...columns(rows, rowKeys), foretold: foretold(rows, foretoldKeys) } as unknown as FiguresRows,
    pairs: { ...columns(pairs, pairKeys), foretold: foretold(pairs, foretoldPairKeys) } as unknown as FiguresPairs,
  };
}

function numbered(named: readonly { readonly name: string }[]): Map<string | null, number | null> {
  return new Map(named.map(({ name }, i) => [name, i]));
}

function columns(list: readonly object[], keys: object): Record<string, unknown[]> {
  const of = (key: string) => list.map((one) => (one as Readonly<Record<string, unknown>>)[key] ?? null);
  return Object.fromEntries(Object.keys(keys).map((key) => [key, of(key)]));
}

function foretold(list: readonly { readonly foretold: object | null }[], keys: object): Record<string, unknown[]> {
  return columns(
    list.map((one) => one.foretold ?? {}),
    keys,
  );
}
