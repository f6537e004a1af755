import { careLines } from '../runs';
import { baselineOf } from './baselineOf';
import { describePlace } from './describePlace';
import { type Content, element, fragment } from './element';
import { foundWords } from './foundWords';
import { groundFindings } from './groundFindings';
import { listItem } from './listItem';
import { missingPart } from './missingPart';
import { openFindings } from './openFindings';
import type { ReportModel } from './reportModel';
import { showCount } from './showFigures';
import { shownPairs } from './shownPairs';
import { strayingPart } from './strayingPart';
import { sureFindings } from './sureFindings';
import { turningPart } from './turningPart';

/**
 * The findings before anything else: the plan with the worst places; beside it, where there is room, what is sure and what is
 * not; then what would decide it, and where it was worst.
 */
export function answerPart(model: ReportModel, plan: Content): Content {
  const { places, receivers, runs, summary } = model;
  const baseline = baselineOf(model);
  const holdsFor = summary ? showCount(summary.runs.length, 'run') : runs.length > 1 ? 'run by run' : 'this run only';
  if (receivers.length === 0) {
    return (
      <>
        <p>
          <strong>Nothing could be judged:</strong> every recording was left out. What is wrong with each stands below;
          where none follows the line, see whether line and recordings are of the same place, and give the right ones.
        </p>
        {plan}
        {warnings(model)}
      </>
    );
  }
  const whole = shownPairs(model, null);
  const sure = sureFindings(model);
  const open = openFindings(model);
  const found = foundWords(whole);
  const ground = groundFindings(model);
  return (
    <>
      <div class="columns answer">
        <div>{plan}</div>
        <div>
          {sure.length > 0 ? (
            <p>
              <strong>Sure</strong> ({holdsFor}; each at 95 %, by itself):
            </p>
          ) : (
            <p>
              <strong>Nothing is sure</strong> ({holdsFor}): nobody was shown to have strayed, nor to have kept to the
              line, nor to lie closer than another.
            </p>
          )}
          {sure.length > 0 && <ul class="findings">{sure.map(listItem)}</ul>}
          {open.length > 0 && (
            <>
              <p>
                <strong>Undecided</strong> ({holdsFor}
                {whole.length > 0 && `, ${showCount(whole.length, 'pair')}`}):
              </p>
              <ul class="open">{open.map(listItem)}</ul>
            </>
          )}
        </div>
        <div>
          {baseline !== null && <p>Every other receiver was compared with “{baseline}” alone.</p>}
          {found.length > 0 && <p>On the whole route {found.join('; ')}.</p>}
          {receivers.length === 1 && <p>One receiver: there is nothing to compare it with.</p>}
          {strayingPart(model)}
          {turningPart(model)}
          {missingPart(model)}
        </div>
        <div>
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
        </div>
      </div>
      {ground.length > 0 && (
        <>
          <p>
            <strong>On the ground:</strong>
          </p>
          <ul class="findings">{ground.map(listItem)}</ul>
        </>
      )}
      {warnings(model)}
    </>
  );
}

function warnings({ assessments, summary }: ReportModel): Content {
  const lines = careLines(assessments, summary);
  if (lines.length === 0) return null;
  return (
    <aside class="care" aria-label="Read with care">
      <h3>Read with care</h3>
      <ul>{lines.map(listItem)}</ul>
    </aside>
  );
}
