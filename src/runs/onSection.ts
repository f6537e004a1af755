import { group, rollup } from 'd3-array';
import type { FiguresPair, FiguresRow, TakenFigures } from './TakenFigures';

/** What an assessment says of one section, to be looked up by name. */
export interface OnSection {
  readonly rows: ReadonlyMap<string, FiguresRow>;
  /** By the first recording of the pair, then by the second. */
  readonly pairs: ReadonlyMap<string, ReadonlyMap<string, FiguresPair>>;
}

/** The rows and pairs of an assessment by section; null is the whole route. */
export function onSection({ rows, pairs }: TakenFigures): ReadonlyMap<string | null, OnSection> {
  const rowsIn = group(rows, ({ section }) => section);
  const pairsIn = group(pairs, ({ section }) => section);
  const sections = new Set([...rowsIn.keys(), ...pairsIn.keys()]);
  return new Map(
    Array.from(sections, (section): [string | null, OnSection] => [
      section,
      {
        rows: new Map(rowsIn.get(section)?.map((row) => [row.recording, row])),
        pairs: rollup(
          pairsIn.get(section) ?? [],
          ([pair]) => pair,
          ({ first }) => first,
          ({ second }) => second,
        ),
      },
    ]),
  );
}
