import { autocorrelation } from './autocorrelation';

/** Entries until the correlation falls below 1/e; undefined when it never does within a third of the column. */
export function correlationLag(values: ArrayLike<number>): number | undefined {
  const column = autocorrelation(values);
  if (!column) return undefined;
  for (let lag = 1; lag <= column.furthest; lag++) if (column.at(lag) < 1 / Math.E) return lag * column.pool;
  return undefined;
}
