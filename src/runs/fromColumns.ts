import { checkArray, InputError } from '../model';
import type { AssessedFigures } from './AssessedFigures';
import { foretoldKeys, foretoldPairKeys, pairKeys, rowKeys } from './columnKeys';

/**
 * Figures with rows and pairs one by one and by name, as an assessment has them: whether they are what they must be is left to see.
 *
 * @throws {InputError} `wrong-type`: no lists, or not all of one length
 */
export function fromColumns({ rows, pairs, ...figures }: AssessedFigures, argument: string): object {
  const recordings = names(figures.recordings);
  const sections = names(figures.route?.sections);
  return {
    ...figures,
    rows: listed(rows, rowKeys, foretoldKeys, `${argument}.rows`).map(({ recording, section, ...row }) => ({
      ...row,
      recording: recordings[recording as number],
      section: section === null ? null : sections[section as number],
    })),
    pairs: listed(pairs, pairKeys, foretoldPairKeys, `${argument}.pairs`).map(
      ({ first, second, section, ...pair }) => ({
        ...pair,
        first: recordings[first as number],
        second: recordings[second as number],
        section: section === null ? null : sections[section as number],
      }),
    ),
  };
}

function names(list: readonly { readonly name: string }[] | undefined): readonly (string | undefined)[] {
  return Array.isArray(list) ? list.map((one: { readonly name?: string } | null) => one?.name) : [];
}

type Members = Record<string, unknown>;

/** Members by lists of equal length, those foretold in an object of their own: null where all of them are. */
function listed(given: unknown, keys: object, foretoldKeys: object, argument: string): Members[] {
  const own = Object.keys(keys).filter((key) => key !== 'foretold');
  const columns = columnsOf(given, own, argument);
  const foretold = columnsOf((given as Members).foretold, Object.keys(foretoldKeys), `${argument}.foretold`);
  const { length } = columns[own[0]];
  for (const [key, column] of [...Object.entries(columns), ...Object.entries(foretold)]) {
    if (column.length === length) continue;
    const rule = `lists of one length, ${length}`;
    throw new InputError({ reason: 'wrong-type', argument, rule, value: `${column.length} of ${key}` });
  }
  const at = (lists: Readonly<Record<string, readonly unknown[]>>, i: number) =>
    Object.fromEntries(Object.entries(lists).map(([key, list]) => [key, list[i]]));
  return Array.from({ length }, (_, i) => {
    const told = at(foretold, i);
    return { ...at(columns, i), foretold: Object.values(told).every((value) => value === null) ? null : told };
  });
}

function columnsOf(given: unknown, keys: readonly string[], argument: string): Record<string, readonly unknown[]> {
  if (typeof given !== 'object' || given === null) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an object', value: given });
  }
  const columns = given as Members;
  return Object.fromEntries(
    keys.map((key) => {
      const column = columns[key];
      checkArray(column, `${argument}.${key}`);
      return [key, column];
    }),
  );
}
