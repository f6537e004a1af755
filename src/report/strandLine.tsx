import { element } from './element';
import { linePath } from './linePath';
import type { Markup } from './Markup';
import { offsetRuns } from './offsetRuns';
import { peaksOf } from './peaksOf';
import { strandLooks } from './receiverLooks';
import type { ReportModel, Strand } from './reportModel';
import type { Point } from './routePlane';
import type { StripPanel } from './StripView';

/** A recording's line in a panel, by the highest and lowest offset of each pixel. */
export function strandLine(model: ReportModel, strand: Strand, { from, to, x, y, width }: StripPanel): Markup {
  const d = offsetRuns(strand, from, to)
    .map((run) => {
      const { along, offset } = peaksOf(run, from, (to - from) / Math.max(1, width));
      const points: Point[] = [];
      for (let i = 0; i < along.length; i++) points.push([x(along[i]), y(offset[i])]);
      if (points.length === 1) points.push([points[0][0] + 0.5, points[0][1]]);
      return linePath(points);
    })
    .join('');
  return <path {...strandLooks(model, strand)} d={d} />;
}
