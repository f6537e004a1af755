import type { TableRow } from './DataTable';
import { type Content, element, fragment } from './element';
import type { ReportModel } from './reportModel';

/** What a row of figures is about. */
export interface Stretch {
  /** Null is the whole route. */
  readonly name: string | null;
  readonly from: number;
  readonly to: number;
  readonly halfWidth: number | null;
}

/** The sections, then the whole route. */
export function everyStretch({ sections, route }: ReportModel): readonly Stretch[] {
  return [...sections, { name: null, from: 0, to: route.length, halfWidth: null }];
}

/** A row about a stretch, below its name what else is to be said of it; the whole route is set off. */
export function stretchRow({ name, from, to }: Stretch, cells: readonly Content[], more: Content = null): TableRow {
  const heading = (
    <>
      {name ?? 'Whole route'}
      {more && <span class="under">{more}</span>}
    </>
  );
  return { heading, cells, stretch: [from, to], kind: name === null ? 'total' : undefined };
}
