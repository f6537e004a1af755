import { dataTable } from './dataTable';
import { type Content, element } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showMetres, showNumber, showShare, showSigned } from './showFigures';

/** Why total length misleads: for each recording the total beside what it is made of. */
export function lengthPart(model: ReportModel): Content {
  const rows = model.strands.map((strand) => {
    const row = strand.rows.get(null);
    const sections = model.sections.flatMap(({ name }) => strand.rows.get(name)?.lengthError ?? []);
    const sizes = sections.reduce((sum, error) => sum + Math.abs(error), 0);
    return {
      heading: [
        receiverName(strand.receiver),
        strand.run !== null && model.runs.length > 1 ? [' ', element('bdi', {}, strand.run)] : null,
      ],
      cells: [
        whole(row?.recordedLength ?? null),
        showSigned(row?.lengthError ?? null),
        row?.lengthError == null
          ? 'no figure'
          : `${row.lengthError > 0 ? '+' : ''}${showNumber((100 * row.lengthError) / row.referenceLength, 2)}\u00A0%`,
        showSigned(row?.turnTerm ?? null),
        showSigned(row?.wiggleTerm ?? null),
        showSigned(row?.remainder ?? null),
        model.sections.length > 1 ? showMetres(sizes) : '–',
        showMetres(row?.meanAbsolute ?? null),
        showShare(row?.coverage ?? null),
      ],
    };
  });
  return [
    element(
      'p',
      {},
      `The reference is ${whole(model.route.length)} long. A recorded total can come close to that for the wrong reasons: cutting turns shortens it, weaving lengthens it, lost stretches shorten it again, and the parts cancel. Read the last columns before the second.`,
    ),
    dataTable(
      'Recorded length and what it is made of',
      [
        'Recording',
        'recorded',
        'difference',
        'in per cent',
        'from turns',
        'from weaving',
        'left over',
        'sum of the sections’ differences, signs dropped',
        'mean distance',
        'covered',
      ],
      rows,
    ),
  ];
}

function whole(value: number | null): string {
  return value === null ? 'no figure' : `${showNumber(value, 0)}\u00A0m`;
}
