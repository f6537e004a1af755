import { element } from './element';
import { linePath } from './linePath';
import type { Markup } from './Markup';
import { type OffsetAt, offsetRuns } from './offsetRuns';
import { strandLooks } from './receiverLooks';
import type { ReportModel, Strand } from './reportModel';
import type { Point } from './routePlane';
import type { StripPanel } from './StripView';

/** A recording's line in a panel, by the highest and lowest offset of each pixel: no peak is lost however long the route is. */
export function strandLine(model: ReportModel, strand: Strand, { from, to, x, y, width }: StripPanel): Markup {
  const step = (to - from) / Math.max(1, width * 1.5);
  const d = offsetRuns(strand, from, to)
    .map((run) => {
      const points: Point[] = [];
      for (let i = 0; i < run.length; ) {
        const cell = Math.floor((run[i][0] - from) / step);
        let [least, most]: OffsetAt[] = [run[i], run[i]];
        for (; i < run.length && Math.floor((run[i][0] - from) / step) === cell; i++) {
          if (run[i][1] < least[1]) least = run[i];
          if (run[i][1] > most[1]) most = run[i];
        }
        const both = least[0] <= most[0] ? [least, most] : [most, least];
        for (const [s, n] of least === most ? [least] : both) points.push([x(s), y(n)]);
      }
      if (points.length === 1) points.push([points[0][0] + 0.5, points[0][1]]);
      return linePath(points);
    })
    .join('');
  return <path {...strandLooks(model, strand)} d={d} />;
}
