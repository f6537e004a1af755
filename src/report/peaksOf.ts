import type { OffsetRun } from './offsetRuns';

/** Of each cell of so many metres along the route the least and the greatest offset, in their order. No peak is lost however long the route is. */
export function peaksOf({ along, offset }: OffsetRun, from: number, step: number): OffsetRun {
  const kept: number[] = [];
  for (let i = 0; i < along.length; ) {
    const cell = Math.floor((along[i] - from) / step);
    let least = i;
    let most = i;
    for (; i < along.length && Math.floor((along[i] - from) / step) === cell; i++) {
      if (offset[i] < offset[least]) least = i;
      if (offset[i] > offset[most]) most = i;
    }
    kept.push(Math.min(least, most));
    if (least !== most) kept.push(Math.max(least, most));
  }
  const peaks = { along: new Float64Array(kept.length), offset: new Float64Array(kept.length) };
  for (let k = 0; k < kept.length; k++) {
    peaks.along[k] = along[kept[k]];
    peaks.offset[k] = offset[kept[k]];
  }
  return peaks;
}
