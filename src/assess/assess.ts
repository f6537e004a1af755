import { finish, type Recording, type Route } from '../model';
import type { Assessment } from './Assessment';
import type { AssessOptions } from './AssessOptions';
import { assessSteps } from './assessSteps';
import type { CarriedRecording } from './testEntries';

/**
 * Judges recordings against the route truly travelled, section by section: how far off each was, to which side, how
 * steadily, how bad at worst, and whether two of them really differ. Lengths in metres.
 *
 * Sections that share a name are told apart by their lap: `oval, lap 2`.
 *
 * A recording that cannot be judged (too few fixes, elsewhere, over more than a day) is named in `warnings` and left out;
 * the rest stands.
 *
 * @param recordings - recordings, or `{ recording, receiver?, placement?, run? }`; only those of one run are compared
 *
 * @throws {InputError} no recording at all, something that is no recording, an option outside its range, or recordings that make
 * over 200 000 comparisons: every two of a run, on each section and the whole
 *
 * @remarks Figures are of the offset in bins of at most a metre, each counting once; their intervals hold the truth as
 * often as the table in docs/verdicts.md says. 10 km of six recordings at one fix a second take well under 1.5 s on one core.
 * Linear in fixes and length, and as `snap` in the metres of the route within reach of a fix, up to 6 km; the warnings of a route grow with the square of its crossings, pairs grow with the square of the receivers, and `baseline` leaves all but its own out.
 * @see the questions that each field answers, docs/questions.md
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const north = (metres) => Array.from({ length: 101 }, (_, i) => direct([2.1 + i / 1e4, 61.4], 0, metres + (i % 3) - 1).position)
 * const recorded = (name, metres) => readGeoJson(JSON.stringify({ type: 'LineString', coordinates: north(metres) }), { name })
 * const assessment = assess(quay, [...recorded('A', 2), ...recorded('B', 6)])
 * assessment.rows.map(({ recording, biasInWords, strayedTo }) => [recording, biasInWords, strayedTo]) // → [['A', '2.0 m left', 'left'], ['B', '6.0 m left', 'left']]
 * assessment.pairs[0] // → { difference: -4.0…, verdict: 'closer', closer: 'A' }
 * assess(quay, []) // throws too-few: recordings must be at least 1 recording
 */
export function assess(
  route: Route,
  recordings: Iterable<Recording | CarriedRecording>,
  options: AssessOptions = {},
): Assessment {
  return finish(assessSteps(route, recordings, options));
}
