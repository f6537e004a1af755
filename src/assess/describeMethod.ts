import { version } from '../../package.json';
import type { Ground } from '../areas';
import { hashNumbers, type Route, routeHash } from '../model';
import type { AssessmentMethod } from './Assessment';
import { cautions } from './cautions';
import type { Companion } from './companionOffsets';
import { SETTLED_RULE } from './describeRecording';
import type { EntryHashes } from './entryHashes';
import { CORNER_RULE } from './findCorners';
import { EXCURSION_RULE } from './findExcursions';
import { OFF_ROUTE_RULE } from './findOffRoute';
import { PASSAGE_RULE } from './findPassages';
import { STOP_RULE } from './findStops';
import { LINE_RULE } from './lineVerdict';
import { ATTRACTION_RULE } from './mapAttraction';
import { PACE_RULE } from './placeEntries';
import { LEFT_RULE } from './RouteGrid';
import { INTERVAL_RULE } from './rowChances';
import { SHOWN_RULE } from './shownPieces';
import { SPARSE_RULE } from './sparseAmong';
import type { Entry } from './testEntries';
import { CAP_RULE } from './verdictCap';
import { VERDICT_RULE } from './verdictOf';

const WEIGHTING =
  'Each metre of the route counts once: bins of at most a metre, in each the mean over the time spent in it. Figures that count each second instead are named time-weighted.';
const GAP_RULE =
  'Fixes are joined unless the file breaks between them, more than 10 s and five usual intervals pass, or they lie further apart than anyone travels.';
const LENGTH_RULE =
  'Recorded length follows the fixes along geodesics, breaks of the file not bridged; the turn term is offset times turn, the wiggle term what weaving adds, the remainder what is missing, detours and chords.';

const AREA_RULE =
  'Areas: the recorded line between joined fixes beside the route, geodesics cut exactly at the edges, which are straight in longitude and latitude; nearer to an edge than it is known to, undecided. Areas of one name are one; edges inside of it are none.';

/** Everything chosen, in fields and in sentences, with hashes of what was judged. */
export function describeMethod(
  route: Route,
  entries: readonly Entry[],
  hashes: readonly EntryHashes[],
  companions: { readonly decoy?: Companion; readonly centreline?: Companion },
  options: AssessmentMethod['options'],
  ground: Ground | undefined,
): AssessmentMethod {
  const given = Object.entries(companions).filter(([, companion]) => companion !== undefined);
  const inputs = [
    { name: 'route', hash: routeHash(route) },
    ...entries.map(({ name }, i) => ({ name, hash: hashes[i].input })),
    ...given.map(([name, companion]) => ({ name, hash: companion!.hash })),
    ...(ground ? [{ name: 'areas', hash: hashOf(ground) }] : []),
  ];
  const { leverArm, equivalence, defaultHalfWidth, exclude } = options;
  return {
    library: 'datumline',
    version,
    binLength: 1,
    weighting: WEIGHTING,
    interval: INTERVAL_RULE,
    verdict: VERDICT_RULE,
    lineVerdict: LINE_RULE,
    gapRule: GAP_RULE,
    lengthRule: LENGTH_RULE,
    options,
    hash: hashNumbers([...inputs.flatMap(({ name, hash }) => [name, hash]), JSON.stringify(options)]),
    inputs,
    sentences: [
      WEIGHTING,
      INTERVAL_RULE,
      VERDICT_RULE,
      CAP_RULE,
      LINE_RULE,
      ...(options.baseline === null
        ? []
        : [`Only comparisons with “${options.baseline}” were made, and corrected for.`]),
      `The floor is ${leverArm} m for the distance between receiver and body, or what moving the reference by its stated uncertainty changes, whichever is more; the margin of equivalence is ${equivalence} m.`,
      SPARSE_RULE,
      `Where the route states no corridor, an offset beyond ${defaultHalfWidth} m is an excursion. The reference’s uncertainty is not added to the corridor.`,
      EXCURSION_RULE,
      GAP_RULE,
      LENGTH_RULE,
      CORNER_RULE,
      OFF_ROUTE_RULE,
      STOP_RULE,
      SETTLED_RULE,
      SHOWN_RULE,
      options.pace === 'shared'
        ? PACE_RULE
        : 'Each recording is placed alone: nothing is said of errors along the route.',
      ...(companions.centreline
        ? ['Side of the street: that of the reference; within the reference’s uncertainty of the centreline undecided.']
        : []),
      ...(companions.decoy ? [ATTRACTION_RULE] : []),
      ...(ground ? [AREA_RULE, PASSAGE_RULE] : []),
      ...exclude.map(
        ({ from, to, reason }) =>
          `Left out for all recordings: ${from.toFixed(0)} m to ${to.toFixed(0)} m (${reason}).`,
      ),
      ...(exclude.length > 0 ? [LEFT_RULE] : []),
    ],
    cautions,
  };
}

function hashOf({ index: { areas, areaOf, doubtOf, x, y } }: Ground): string {
  return hashNumbers([JSON.stringify(areas.map(({ name, kind }) => [name, kind])), areaOf, doubtOf, x, y]);
}
