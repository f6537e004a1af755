import { type Content, element, fragment } from './element';
import { Folded } from './Folded';
import { listItem } from './listItem';
import type { ReportModel } from './reportModel';

/** How the figures came about: every choice, version and hash, so that another can do it again. */
export function methodPart({ assessments, summary }: ReportModel): Content {
  const [{ method: judged }] = assessments;
  const { leverArm, equivalence } = judged.options;
  const each = new Set(assessments.flatMap(({ method }) => method.sentences));
  const sentences = [
    // what the summary says of itself; what it repeats of each run comes below
    ...(summary?.method.sentences ?? []).filter((sentence) => !each.has(sentence)),
    judged.weighting,
    judged.interval,
    judged.verdict,
    judged.lineVerdict,
    `Receiver to body: ${leverArm} m. Margin of equivalence: ${equivalence} m.`,
  ];
  const excluded = assessments[0].route.excluded;
  const lines = new Set(assessments.flatMap(({ method }) => method.inputs.map(({ name, hash }) => `${name} ${hash}`)));
  return (
    <>
      {excluded.length > 0 && (
        <p>
          Left out for all recordings alike:{' '}
          {excluded.map(({ from, to, reason }) => `${from.toFixed(0)}–${to.toFixed(0)} m (${reason})`).join('; ')}.
        </p>
      )}
      <Folded summary="Intervals, verdicts, versions and hashes">
        <ul class="method">{sentences.map(listItem)}</ul>
        <p class="note">
          Every other rule and constant stands in the assessment (<code>method.sentences</code>).
        </p>
        <p class="hashes">
          {judged.library} {judged.version}, <code>{assessments.map(({ method }) => method.hash).join(' ')}</code>. What
          was judged, by its hash: {[...lines].map((line) => [<bdi>{line}</bdi>, '; '])}
        </p>
      </Folded>
    </>
  );
}
