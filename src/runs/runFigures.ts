import type { Assessment } from '../assess';
import type { AssessedFigures } from './AssessedFigures';
import { readFigures } from './readFigures';
import { toColumns } from './toColumns';

/**
 * What {@link combine} needs of an assessment: a small document to be kept or sent in its place, with which `combine` gives
 * the same summary. Of figures it gives the same figures again.
 *
 * No position of a recording stands in it, and none of its offsets: the line is that of the route, at 101 places at most.
 *
 * @throws {InputError} `wrong-type`: neither an assessment nor figures of one
 * @remarks Grows with the recordings and sections, and with the pairs of recordings of a run; the line of the route and the method
 * in sentences come once: docs/many.md has sizes.
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const north = (metres) => [2.1, 2.102, 2.104, 2.106, 2.108, 2.11].map((lon) => direct([lon, 61.4], 0, metres).position)
 * const recorded = (name, metres) => readGeoJson(JSON.stringify({ type: 'LineString', coordinates: north(metres) }), { name })
 * const day = (a, b) => runFigures(assess(quay, [...recorded('A', a), ...recorded('B', b)]))
 * day(2, 6).rows // → { recording: [0, 1], section: [null, null], meanAbsolute: [2.0…, 6.0…] }
 * combine([day(2, 6), day(3, 6), day(2, 7)]).pairs[0] // → { runs: 3, difference: -4.0…, verdict: 'closer', closer: 'A' }
 * runFigures({}) // throws wrong-type: assessment must be what assess or runFigures returned
 */
export function runFigures(assessment: Assessment | AssessedFigures): AssessedFigures {
  return toColumns(readFigures(assessment, 'assessment'));
}
