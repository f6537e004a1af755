import { writeGeoJson } from '../formats';
import { InputError, type Recording, type Route, type Snapped } from '../model';
import { keepFixes } from '../privacy';
import type { CommandArguments } from './CommandArguments';
import { shownFixes } from './shownFixes';

/** The fixes as GeoJSON, each at the place and by the number it has in the whole recording: those that may be shown. */
export function snappedMap(
  route: Route,
  recording: Recording,
  snapped: Snapped,
  times: CommandArguments['times'],
): string {
  const fixes = shownFixes(route, recording, snapped);
  if (fixes.length < 2) {
    const rule = 'one of which at least 2 fixes lie on the route';
    throw new InputError({ reason: 'too-few', argument: 'recording', rule, value: fixes.length });
  }
  const { name, issues, source } = recording;
  const pick = (column: Float64Array) => Float64Array.from(fixes, (i) => column[i]);
  const shown = { name, issues, source, attributes: {}, ...keepFixes(recording, fixes) };
  const places = {
    alongTrack: pick(snapped.alongTrack),
    crossTrack: pick(snapped.crossTrack),
    distance: pick(snapped.distance),
    state: fixes.map((i) => snapped.state[i]),
  };
  return writeGeoJson(shown, { times, matched: { route, snapped: places, fixes } });
}
