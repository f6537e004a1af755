import { type Content, element, fragment } from './element';
import { LineSample } from './LineSample';
import { runWidth } from './receiverLooks';
import type { ReportModel } from './reportModel';
import { runTags } from './runTags';

/** Each run with a sample of its line's width and what it is called on its lines; nothing where there is one run. */
export function runKey(model: ReportModel): Content {
  if (model.runs.length < 2) return null;
  const tags = runTags(model);
  return model.runs.map((run) => (
    <>
      {' '}
      <LineSample name={runLabel(run, tags)}>
        <path class="dl-line dl-ink" stroke-width={runWidth(model, run)} d="M0,6H30" />
      </LineSample>
    </>
  ));
}

/** A run's name, with its short one where its lines bear that. */
export function runLabel(run: string | null, tags: ReadonlyMap<string | null, string>): string {
  const tag = tags.get(run)!;
  return run === null ? `${tag}: no run named` : tag === run ? run : `${tag}: ${run}`;
}
