import { version } from '../../package.json';
import type { Route } from '../route';
import type { AssessmentMethod } from './Assessment';
import { hashNumbers } from './hashNumbers';
import type { Entry } from './testEntries';

const WEIGHTING =
  'Each metre of the route counts once: bins of at most a metre, in each the mean over the time spent in it. Figures that count each second instead are named time-weighted.';
const INTERVAL =
  '95 % intervals come from the means of a few contiguous blocks with Student’s t; they speak of this run only.';
const VERDICT =
  'Closer: the interval of the paired difference excludes 0, also after Holm’s correction over the pairs, and the difference exceeds the floor. Equivalent: the whole interval lies within the margin. Otherwise undecided.';
const GAP_RULE =
  'Fixes are joined unless the file breaks between them, more than 10 s and five usual intervals pass, or they lie further apart than anyone travels.';
const LENGTH_RULE =
  'Recorded length follows the fixes along geodesics, breaks of the file not bridged; the turn term is offset times turn, the wiggle term what weaving adds, the remainder what is missing, detours and chords.';

const CAUTIONS = [
  'Not for navigation, safety, course certification, surveying or legal use: follow local rules and licensed practice.',
  'The figures speak of these units, on this day, on this route; one run ranks nothing.',
  'The reference is an authored estimate, not a certified measurement.',
  'Do not look at a wrist or a screen in traffic, and keep to lawful ways.',
  'Tracks reveal homes: publish only what lies on the route.',
];

/** Everything chosen, in fields and in sentences, with hashes of what was judged. */
export function describeMethod(
  route: Route,
  entries: readonly Entry[],
  options: AssessmentMethod['options'],
): AssessmentMethod {
  const inputs = [
    { name: 'route', hash: hashNumbers([route.lon, route.lat]) },
    ...entries.map(({ name, recording }) => ({
      name,
      hash: hashNumbers([recording.lon, recording.lat, recording.time ?? []]),
    })),
  ];
  const { leverArm, equivalence, defaultHalfWidth, exclude } = options;
  return {
    library: 'datumline',
    version,
    binLength: 1,
    weighting: WEIGHTING,
    interval: INTERVAL,
    verdict: VERDICT,
    gapRule: GAP_RULE,
    lengthRule: LENGTH_RULE,
    options,
    hash: hashNumbers([...inputs.map(({ hash }) => hash), JSON.stringify(options)]),
    inputs,
    sentences: [
      WEIGHTING,
      INTERVAL,
      VERDICT,
      `The floor is ${leverArm} m for the distance between receiver and body, or what moving the reference by its stated uncertainty changes, whichever is more; the margin of equivalence is ${equivalence} m.`,
      `Where the route states no corridor, an offset beyond ${defaultHalfWidth} m is an excursion.`,
      GAP_RULE,
      LENGTH_RULE,
      ...exclude.map(
        ({ from, to, reason }) =>
          `Left out for all recordings: ${from.toFixed(0)} m to ${to.toFixed(0)} m (${reason}).`,
      ),
    ],
    cautions: CAUTIONS,
  };
}
