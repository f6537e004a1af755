import { type Assessment, assess, direct, type Recording, type Route, routeBuilder } from 'datumline';
import { recordingOf } from '../assess/recordingOf';

const start: [number, number] = [2.1, 61.4];

/** An invented street eastwards over open sea, 600 m in two sections. */
export function inventedStreet(names: readonly [string, string] = ['west', 'east']): Route {
  return routeBuilder({ name: 'Invented street' })
    .start(start)
    .section(names[0], { halfWidth: 5 })
    .lineTo(direct(start, 90, 300).position)
    .section(names[1], { halfWidth: 5 })
    .lineTo(direct(start, 90, 600).position)
    .build();
}

/** Recorded beside the street, a fix every 3 m; none between 400 and 460 m. */
export function recordedBeside(offset: (metre: number) => number, name: string): Recording {
  const positions: [number, number][] = [];
  const times: number[] = [];
  let gap = 0;
  for (let s = 0; s <= 600; s += 3) {
    if (s > 400 && s < 460) continue;
    const on = direct(start, 90, s);
    if (s >= 460 && gap === 0) gap = positions.length;
    positions.push(direct(on.position, on.finalAzimuth + 90, offset(s)).position as [number, number]);
    times.push(s / 3);
  }
  return recordingOf(positions, { name, times, gaps: [gap] });
}

/** Metres right of the street at a place, for the third receiver: not as much at 153 m as at 147 m. */
const spike = (s: number) => 20 * Math.exp(-(((s - 149.9) / 12) ** 2));

/** Its greatest offset in a metre's bin: half a metre before the fix at 150 m, on the chord from the fix at 147 m. */
export const spikePeak = spike(147) / 6 + (5 * spike(150)) / 6;

/** Three receivers on the street: one on it, one 3 m left, one with a spike of 20 m to the right at 150 m. */
export function inventedAssessment(
  names: readonly string[] = ['A', 'B', 'C'],
  sections?: readonly [string, string],
): Assessment {
  const offsets = [() => 0.4, () => -3, spike];
  return assess(
    inventedStreet(sections),
    names.map((receiver, i) => ({ recording: recordedBeside(offsets[i], receiver), receiver })),
  );
}
