import { element } from './element';
import { linePath } from './linePath';
import type { Markup } from './Markup';
import { offsetRuns } from './offsetRuns';
import { peaksOf } from './peaksOf';
import { strandLooks } from './receiverLooks';
import type { ReportModel, Strand } from './reportModel';
import type { StripPanel } from './StripView';

/** A recording's line in a panel, by the highest and lowest offset of each pixel. */
export function strandLine(model: ReportModel, strand: Strand, { from, to, x, y, width }: StripPanel): Markup {
  const d = offsetRuns(strand, from, to)
    .map((run) => {
      const { along, offset } = peaksOf(run, from, (to - from) / Math.max(1, width));
      const line = { x: along.map(x), y: offset.map(y) };
      // a single fix is a dot
      const dot = { x: [line.x[0], line.x[0] + 0.5], y: [line.y[0], line.y[0]] };
      return linePath(along.length > 1 ? line : dot);
    })
    .join('');
  return <path {...strandLooks(model, strand)} d={d} />;
}
