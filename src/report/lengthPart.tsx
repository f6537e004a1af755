import type { TotalLength } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { markTable } from './markTable';
import type { ReportModel, Strand } from './reportModel';
import { showMetres, showNumber, showShare, showSigned } from './showFigures';
import { strandName } from './strandName';

/** Why total length misleads: for each recording the total beside what it is made of, then what it showed on the way. */
export function lengthPart(model: ReportModel): Content {
  const lines = model.strands.map((strand) => ({ strand, total: totalOf(strand) }));
  return (
    <>
      <p>
        The reference is {whole(model.route.length)} long. A total can come close to that for the wrong reasons: cut
        turns and lost stretches shorten it, weaving lengthens it, and the parts cancel.
      </p>
      {mostHidden(lines)}
      <DataTable
        caption="Recorded length and what it is made of"
        columns={[
          'Recording',
          'recorded',
          'too long (+) or short (−)',
          'from turns',
          'from weaving',
          'left over',
          'errors of the stretches, added up without sign',
          'what of these shows in the total',
        ]}
        rows={lines.map(({ strand, total }) => {
          const row = strand.rows.get(null);
          return {
            heading: strandName(model, strand),
            cells: [
              whole(row?.recordedLength ?? null),
              row?.lengthError == null
                ? 'no figure'
                : `${showSigned(row.lengthError)} (${row.lengthError > 0 ? '+' : ''}${showNumber((100 * row.lengthError) / row.referenceLength, 1)}\u00A0%)`,
              showSigned(row?.turnTerm ?? null),
              showSigned(row?.wiggleTerm ?? null),
              showSigned(row?.remainder ?? null),
              total?.cancellation == null ? '–' : showMetres(total.absoluteErrors),
              total?.cancellation == null ? '–' : showShare(total.cancellation),
            ],
          };
        })}
      />
      <p class="note">
        Breaks of a file are not bridged. “Left over” is what is missing, detours and chords. The nearer the last column
        is to zero, the more the errors cancel in the total.
      </p>
      {markTable(model)}
    </>
  );
}

function totalOf({ assessment, recording }: Strand): TotalLength | undefined {
  return assessment.totals.find((total) => total.recording === recording.name);
}

/** The recording whose total hides most, in words. */
function mostHidden(lines: readonly { readonly strand: Strand; readonly total: TotalLength | undefined }[]): Content {
  const told = lines.flatMap(({ strand, total }) =>
    total?.cancellation == null ? [] : [{ strand, total, hidden: total.absoluteErrors * (1 - total.cancellation) }],
  );
  const [worst] = told.sort((a, b) => b.hidden - a.hidden);
  if (!worst || worst.hidden < 1) return null;
  const { strand, total } = worst;
  return (
    <p>
      {strand.label}: the stretches are wrong by {showMetres(total.absoluteErrors)} in all, the total by{' '}
      {showMetres(Math.abs(total.lengthError))}.
    </p>
  );
}

function whole(value: number | null): string {
  return value === null ? 'no figure' : `${showNumber(value, 0)}\u00A0m`;
}
