import type { Assessment, AssessmentWarning } from '../assess';
import { describePlace } from './describePlace';
import { type Content, element, fragment } from './element';
import { listItem } from './listItem';
import type { ReportModel } from './reportModel';
import { orderSentences, sectionFindings } from './sectionFindings';
import { showList } from './showFigures';
import { strayingPart } from './strayingPart';

/** The findings before anything else, in words: who strayed, where, and whether differences are shown at all. */
export function answerPart(model: ReportModel): Content {
  const { places, receivers, sections } = model;
  const judged = sections.filter(({ name }) => orderSentences(model, name).length > 0);
  const [shown, refused] = [true, false].map((told) =>
    judged.filter(({ name }) => differenceShown(model, name) === told),
  );
  return (
    <>
      <ul class="findings">
        {sectionFindings(model, null).map(listItem)}
        {receivers.length === 1 && <li>One receiver: there is nothing to compare it with.</li>}
      </ul>
      {shown.length > 0 && (
        <>
          <p>
            <strong>A difference is shown:</strong>
          </p>
          <ul class="shown">{shown.flatMap(({ name }) => orderSentences(model, name)).map(listItem)}</ul>
        </>
      )}
      {refused.length > 0 && (
        <p>
          <strong>No difference shown</strong> between any two receivers in {showList(refused.map(({ name }) => name))}.
        </p>
      )}
      {strayingPart(model)}
      {places.length > 0 ? (
        <>
          <p>
            <strong>Furthest off:</strong>
          </p>
          <ol class="worst">{places.slice(0, 3).map(describePlace).map(listItem)}</ol>
        </>
      ) : (
        <p>No recording strayed further than the corridor allows, where one is stated.</p>
      )}
      {warnings(model)}
    </>
  );
}

/** Whether any two receivers were told apart there. */
function differenceShown({ assessments, summary }: ReportModel, section: string): boolean {
  const pairs = summary ? summary.pairs : assessments.flatMap(({ pairs }) => pairs);
  return pairs.some((pair) => pair.section === section && pair.verdict === 'closer');
}

function warnings({ assessments, summary, strands }: ReportModel): Content {
  // Over several runs the summary itself says whether there were enough and whether receivers were swapped.
  const listed = ({ warnings }: Assessment) =>
    warnings.filter(({ reason }) => summary === null || (reason !== 'one-run' && reason !== 'unbalanced'));
  const own = assessments.map((assessment) => listed(assessment).map((warning) => warningLine(warning, null)));
  const shared = own[0].filter((line) => own.every((lines) => lines.includes(line)));
  const ofRuns = assessments.flatMap((assessment) => {
    const run = strands.find((strand) => strand.assessment === assessment)?.run ?? null;
    return listed(assessment)
      .filter((warning) => !shared.includes(warningLine(warning, null)))
      .map((warning) => warningLine(warning, assessments.length > 1 ? run : null));
  });
  const lines = [...new Set([...shared, ...(summary?.warnings ?? []).map(({ message }) => message), ...ofRuns])];
  if (lines.length === 0) return null;
  return (
    <aside class="care" aria-label="Read with care">
      <h3>Read with care</h3>
      <ul>{lines.map(listItem)}</ul>
    </aside>
  );
}

function warningLine({ recording, section, message }: AssessmentWarning, run: string | null): string {
  const about = [run, recording, section].filter(Boolean).join(', ');
  return about ? `${about}: ${message}` : message;
}
