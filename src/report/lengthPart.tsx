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
        The reference is {whole(model.route.length)} long. A recorded total can come close to that for the wrong
        reasons: cutting turns shortens it, weaving lengthens it, lost stretches shorten it again, and the parts cancel.
        Read the last columns before the second.
      </p>
      {mostHidden(lines)}
      <DataTable
        caption="Recorded length and what it is made of"
        columns={[
          'Recording',
          'recorded',
          'difference',
          'in per cent',
          'from turns',
          'from weaving',
          'left over',
          'differences of the stretches, ignoring signs',
          'of these the total shows',
          'of turns and weaving it shows',
          'mean distance',
          'covered',
        ]}
        rows={lines.map(({ strand, total }) => {
          const row = strand.rows.get(null);
          return {
            heading: strandName(model, strand),
            cells: [
              whole(row?.recordedLength ?? null),
              showSigned(row?.lengthError ?? null),
              row?.lengthError == null
                ? 'no figure'
                : `${row.lengthError > 0 ? '+' : ''}${showNumber((100 * row.lengthError) / row.referenceLength, 2)}\u00A0%`,
              showSigned(row?.turnTerm ?? null),
              showSigned(row?.wiggleTerm ?? null),
              showSigned(row?.remainder ?? null),
              total?.cancellation == null ? '–' : showMetres(total.absoluteErrors),
              total?.cancellation == null ? '–' : showShare(total.cancellation),
              total?.termCancellation == null ? '–' : showShare(total.termCancellation),
              showMetres(row?.meanAbsolute ?? null),
              showShare(row?.coverage ?? null),
            ],
          };
        })}
      />
      <p class="note">
        Recorded length is the sum of the pieces, breaks not bridged. “From turns” and “from weaving” are what offset
        and its change make of the length, “left over” what is missing, detours and chords. The nearer “the total shows”
        is to zero, the more of the error cancels in it.
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
