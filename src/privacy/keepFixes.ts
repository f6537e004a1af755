import type { Recording } from '../model';

/** What a recording has one entry a fix of. */
export type FixColumns = Pick<
  Recording,
  'lon' | 'lat' | 'time' | 'height' | 'hdop' | 'satellites' | 'accuracy' | 'gapBefore'
>;

/** The columns of a recording with none but the fixes `kept`, rising; the line is broken where any was cut out. */
export function keepFixes(recording: FixColumns, kept: readonly number[]): FixColumns {
  const pick = (column: Float64Array) => {
    const picked = new Float64Array(kept.length);
    for (let k = 0; k < kept.length; k++) picked[k] = column[kept[k]];
    return picked;
  };
  const gapBefore = new Uint8Array(kept.length);
  for (let k = 0; k < kept.length; k++) {
    let gap = k === 0;
    // a gap at any fix that was cut out is a gap still
    for (let i = (kept[k - 1] ?? -1) + 1; i <= kept[k] && !gap; i++) gap = recording.gapBefore[i] === 1 || i < kept[k];
    gapBefore[k] = gap ? 1 : 0;
  }
  const { time, height, hdop, satellites, accuracy } = recording;
  return {
    lon: pick(recording.lon),
    lat: pick(recording.lat),
    ...(time ? { time: pick(time) } : {}),
    ...(height ? { height: pick(height) } : {}),
    ...(hdop ? { hdop: pick(hdop) } : {}),
    ...(satellites ? { satellites: pick(satellites) } : {}),
    ...(accuracy ? { accuracy: pick(accuracy) } : {}),
    gapBefore,
  };
}
