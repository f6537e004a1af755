import type { Assessment } from '../assess';
import { finish } from '../model';
import type { AssessedFigures } from './AssessedFigures';
import type { CombineOptions } from './CombineOptions';
import { combineSteps } from './combineSteps';
import type { TestSummary } from './TestSummary';

/**
 * What several runs over one route say together about the receivers: the run is the unit of replication, so that an hour
 * of fixes counts as one observation, not as 3600.
 *
 * Each assessment holds one run, or several told apart by the `run` of its recordings; in its place stands what
 * {@link runFigures} took out of it. Verdicts rest on what the runs say
 * between them, joined with what each foretells of itself from within; the exact sign-flip test stands beside it. With one
 * run everything is undecided.
 *
 * @throws {InputError} no assessment, something that is none, or assessments of different routes
 *
 * @remarks Time grows with the runs, and with the square of the receivers, every two of which are a pair; over several runs with their
 * cube, as each pair looks at those that share a receiver with it.
 * @see ISO 5725 for trueness and for precision within and between runs
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const north = (metres) => [2.1, 2.102, 2.104, 2.106, 2.108, 2.11].map((lon) => direct([lon, 61.4], 0, metres).position)
 * const recorded = (name, metres) => readGeoJson(JSON.stringify({ type: 'LineString', coordinates: north(metres) }), { name })
 * const day = (a, b) => assess(quay, [...recorded('A', a), ...recorded('B', b)])
 * combine([day(2, 6), day(3, 6), day(2, 7)]).pairs[0] // → { runs: 3, difference: -4.0…, verdict: 'closer', closer: 'A', signFlipPValue: 0.25 }
 * combine([day(2, 6)]).pairs[0].verdict // → 'undecided'
 * combine([]) // throws too-few: assessments must be at least 1 assessment
 */
export function combine(
  assessments: Iterable<Assessment | AssessedFigures>,
  options: CombineOptions = {},
): TestSummary {
  return finish(combineSteps(assessments, options));
}
