import {
  type Assessment,
  assess,
  combine,
  combineByTime,
  followRoute,
  InputError,
  indexRoute,
  judgeByTime,
  localPlane,
  type RouteRecipe,
  routeBuilder,
  snap,
} from 'datumline';
import { nasty } from '../support/mutations';
import { sampleFiles } from '../support/sampleFiles';
import { callables } from './callables';
import { Dice } from './Dice';
import { about, anyJunk, anyLine, anyNumber, anyPosition, anyRecording, anyRoute } from './extremes';
import { unsoundAt } from './soundness';

type Make = (dice: Dice) => unknown[];

const side = (dice: Dice) => dice.pick(['left', 'right'] as const);
/** Some of the members, each by itself. */
const some = (dice: Dice, members: Record<string, (dice: Dice) => unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(members).flatMap(([key, make]) => (dice.chance(0.4) ? [[key, make(dice)]] : [])));
const numbers = (dice: Dice) => dice.list(0, 20, () => (dice.chance(0.9) ? dice.between(-50, 50) : anyNumber(dice)));
const line = (dice: Dice) =>
  dice.chance(0.7)
    ? anyLine(dice)
    : dice.chance(0.5)
      ? anyRoute(dice)
      : { type: 'LineString', coordinates: anyLine(dice) };
const lines: Make = (dice) => {
  const first = anyLine(dice);
  // near one another, so that they have something to do with each other
  const second = dice.chance(0.5)
    ? first.map(([lon, lat]) => [lon + dice.between(-1e-5, 1e-5), Math.max(-90, Math.min(90, lat + 1e-6))])
    : line(dice);
  return [first, second];
};
const along = (dice: Dice, length: number) =>
  dice.chance(0.8) ? dice.between(0, length) : dice.pick([0, length, -1e-9, length + 1e-9, anyNumber(dice)]);
const words = nasty.filter((word) => !/NaN|Infinity/.test(word));
const text = (dice: Dice) => (dice.chance(0.7) ? dice.pick(['a', 'b', 'lap', '<b>', ' ']) : dice.pick(words));

/** Assessments to draw, made once each: the same in every run. */
const kept = new Map<number, Assessment | undefined>();
function keptAssessment(number: number): Assessment | undefined {
  if (!kept.has(number)) {
    const dice = new Dice(4711, number);
    const route = anyRoute(dice);
    let made: Assessment | undefined;
    try {
      made = assess(
        route,
        dice.list(1, 3, (i) => ({ recording: anyRecording(dice, route), receiver: `r${i}`, run: 'one' })),
      );
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
    kept.set(number, made);
  }
  return kept.get(number);
}
function assessment(dice: Dice): Assessment {
  for (let number = dice.integer(0, 19); ; number++) {
    const found = keptAssessment(number);
    if (found) return found;
  }
}
/** As a file may hold it: with a member changed, as deep as told. */
function document(dice: Dice, whole: unknown, deepest = 6): unknown {
  const copy = JSON.parse(JSON.stringify(whole));
  for (let faults = dice.pick([0, 0, 0, 0, 1, 2]); faults > 0; faults--) {
    let holder = copy;
    for (let depth = dice.integer(0, deepest); depth > 0; depth--) {
      const inner = Object.values(holder).filter((value) => typeof value === 'object' && value !== null);
      if (inner.length > 0) holder = dice.pick(inner);
    }
    const keys = Object.keys(holder);
    // what is put in is shared by all cases
    if (keys.length === 0 || ArrayBuffer.isView(holder) || Object.isFrozen(holder)) continue;
    const key = dice.pick(keys);
    if (dice.chance(0.3)) delete holder[key];
    else holder[key] = dice.chance(0.5) ? anyNumber(dice) : anyJunk(dice);
  }
  return copy;
}
const assessments = (dice: Dice): unknown =>
  dice.chance(0.7) ? document(dice, assessment(dice)) : dice.list(1, 3, () => document(dice, assessment(dice)));

/** What a run by the clock says, as a file may hold it. */
const timed = (dice: Dice): unknown => {
  const route = anyRoute(dice);
  const judged = quietly(() =>
    judgeByTime(
      anyRecording(dice, route),
      dice.list(1, 3, (i) => ({ recording: anyRecording(dice, route), receiver: `r${i}` })),
      { route },
    ),
  );
  return judged && document(dice, judged, 0);
};

const builderSteps = (dice: Dice) => (builder: { lineBy(leg: object): unknown; section(name: string): unknown }) => {
  if (dice.chance(0.5)) builder.section(text(dice));
  builder.lineBy({ azimuth: about(dice, 180), distance: about(dice, 50) });
  builder.lineBy({ azimuth: 10, distance: 20 });
};
const recipe = (dice: Dice): RouteRecipe => document(dice, anyRoute(dice).recipe) as RouteRecipe;
/** A ring about where the other makers' lines begin, a box or bowed. */
const ring = (dice: Dice) => {
  const [west, south] = [4.9 + dice.between(0, 0.1), 59.9 + dice.between(0, 0.1)];
  const [east, north] = [west + dice.between(-0.01, 0.1), south + dice.between(-0.01, 0.1)];
  return [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
};
const polygons = (dice: Dice) =>
  document(dice, {
    type: 'FeatureCollection',
    features: dice.list(1, 4, () => ({
      type: 'Feature',
      properties: some(dice, {
        area: text,
        kind: (d) => d.pick(['allowed', 'impossible', 'road']),
        doubt95: (d) => about(d, 1),
      }),
      geometry: { type: 'Polygon', coordinates: dice.list(1, 2, () => ring(dice)) },
    })),
  });
const featureCollection = (dice: Dice) => {
  const feature = (geometry: unknown, properties: unknown) => ({ type: 'Feature', properties, geometry });
  return document(dice, {
    type: 'FeatureCollection',
    features: [
      ...dice.list(1, 3, () =>
        feature(
          { type: 'LineString', coordinates: anyLine(dice) },
          some(dice, { name: text, halfWidth: (d) => about(d, 5), lateral95: (d) => about(d, 1) }),
        ),
      ),
      ...dice.list(0, 1, () => feature({ type: 'Point', coordinates: anyPosition(dice) }, { name: text(dice) })),
      ...dice.list(0, 1, () =>
        feature(
          {
            type: 'Polygon',
            coordinates: [
              [
                [4.9, 59.9],
                [5.1, 59.9],
                [5.1, 60.1],
                [4.9, 59.9],
              ],
            ],
          },
          { name: text(dice) },
        ),
      ),
    ],
  });
};
const written: Make = (dice) => {
  const route = anyRoute(dice);
  const recording = anyRecording(dice, route);
  const what = dice.pick([
    () => route,
    () => recording,
    () => [recording, anyRecording(dice, route)],
    () => line(dice),
  ])();
  const options = some(dice, {
    identity: (d) => d.pick(['strip', 'keep']),
    times: (d) => d.pick(['relative', 'absolute', 'none']),
    ...(dice.chance(0.1) ? { matched: () => ({ route, snapped: quietly(() => snap(route, recording)) }) } : {}),
  });
  return [what, options];
};
/** An answer to go on with, or nothing where it was refused. */
const truthOptions = (dice: Dice) => some(dice, { maxTruthGap: (d) => about(d, 2), truth95: (d) => about(d, 1) });

function quietly<T>(call: () => T): T | undefined {
  try {
    return call();
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
const read =
  (...keys: (keyof typeof sampleFiles)[]): Make =>
  (dice) => [
    dice.chance(0.7) ? sampleFiles[dice.pick(keys)] : dice.pick(nasty).repeat(dice.integer(1, 50)),
    some(dice, { name: text, zone: (d) => d.pick(['UTC', '+02:00', 'Europe/Oslo', '+99:00', '']) }),
  ];
/** What is drawn about a line, mostly GeoJSON. */
const surroundings = (dice: Dice) =>
  dice.pick<unknown>([
    { type: 'Polygon', coordinates: [ring(dice)] },
    {
      type: 'Feature',
      properties: { kind: text(dice), name: text(dice) },
      geometry: { type: 'LineString', coordinates: ring(dice) },
    },
    { type: 'FeatureCollection', features: nasty, licence: text(dice) },
    { type: 'MultiPolygon', coordinates: [[[anyPosition(dice), anyPosition(dice)]]] },
    ...nasty,
  ]);
const view: Make = (dice) => [
  assessments(dice),
  some(dice, { width: (d) => about(d, 900), section: (d) => d.pick(['s0', 's1', 'nowhere']) }),
];
const built =
  (make: Make): Make =>
  (dice) => [dice.pick([[5, 60], anyPosition(dice)]), ...make(dice)];

/** For each function of the package what it may be given: a function that is not in it fails the fuzz by name. */
const makers: Record<string, Make> = {
  inverse: (dice) => [anyPosition(dice), anyPosition(dice)],
  direct: (dice) => [anyPosition(dice), anyNumber(dice), anyNumber(dice)],
  interpolate: (dice) => [anyPosition(dice), anyPosition(dice), anyNumber(dice)],
  lineLength: (dice) => [line(dice)],
  densify: (dice) => [anyLine(dice), { maxSpacing: dice.chance(0.9) ? about(dice, 1e5) : anyNumber(dice) }],
  pointToGeodesic: (dice) => [anyPosition(dice), anyPosition(dice), anyPosition(dice)],
  pointToSegment: (dice) => [anyPosition(dice), anyPosition(dice), anyPosition(dice)],
  crossTrackDistance: (dice) => [anyPosition(dice), anyPosition(dice), anyPosition(dice)],
  alongTrackDistance: (dice) => [anyPosition(dice), anyPosition(dice), anyPosition(dice)],
  intersection: (dice) => [anyPosition(dice), anyPosition(dice), anyPosition(dice), anyPosition(dice)],
  localPlane: (dice) => [anyPosition(dice)],
  'localPlane.toPlane': (dice) => [anyPosition(dice)],
  'localPlane.toPosition': (dice) => [[anyNumber(dice), anyNumber(dice)]],
  routeBuilder: (dice) => [
    some(dice, {
      name: text,
      maxSpacing: (d) => about(d, 10),
      maxSagitta: (d) => about(d, 0.1),
      cornerRadius: (d) => about(d, 5),
      lateral95: (d) => about(d, 1),
      halfWidth: (d) => about(d, 5),
    }),
  ],
  'routeBuilder.start': built((dice) => [anyPosition(dice), some(dice, { azimuth: anyNumber })]),
  'routeBuilder.lineTo': built((dice) => [anyPosition(dice), some(dice, { cornerRadius: (d) => about(d, 5) })]),
  'routeBuilder.lineBy': built((dice) => [{ azimuth: anyNumber(dice), distance: about(dice, 100) }]),
  'routeBuilder.arc': built((dice) => [{ turn: side(dice), radius: about(dice, 20), sweep: about(dice, 180) }]),
  'routeBuilder.follow': built((dice) => [
    line(dice),
    some(dice, {
      side,
      metres: (d) => about(d, 5),
      from: (d) => about(d, 10),
      to: (d) => about(d, 100),
      reverse: (d) => d.chance(0.5),
    }),
  ]),
  'routeBuilder.moveOver': built((dice) => [{ side: side(dice), metres: about(dice, 5), over: about(dice, 20) }]),
  'routeBuilder.uTurn': built((dice) => [{ side: side(dice), width: about(dice, 10) }]),
  'routeBuilder.section': built((dice) => [
    text(dice),
    some(dice, {
      halfWidth: (d) => about(d, 5),
      environment: text,
      from: (d) => about(d, 10),
      to: (d) => about(d, 50),
    }),
  ]),
  'routeBuilder.endSection': built(() => []),
  'routeBuilder.mark': built((dice) => [text(dice), some(dice, { time: anyNumber, near: anyPosition })]),
  'routeBuilder.laps': built((dice) => [dice.chance(0.7) ? dice.integer(0, 20) : anyNumber(dice), builderSteps(dice)]),
  'routeBuilder.outAndBack': built((dice) => [
    builderSteps(dice),
    some(dice, { returnBeside: (d) => ({ side: side(d), metres: about(d, 5) }) }),
  ]),
  'routeBuilder.provenance': built((dice) => [
    some(dice, {
      lateral95: (d) => about(d, 1),
      source: text,
      date: text,
      licence: text,
      frame: text,
      epoch: anyNumber,
    }),
  ]),
  'routeBuilder.build': built(() => []),
  routeFromRecipe: (dice) => [recipe(dice)],
  routeFromLine: (dice) => [
    line(dice),
    some(dice, { name: text, maxSpacing: (d) => about(d, 10), cornerRadius: (d) => about(d, 5) }),
  ],
  routeFromGeoJson: (dice) => [featureCollection(dice), some(dice, { name: text, maxSpacing: (d) => about(d, 10) })],
  pointAt: (dice) => {
    const route = anyRoute(dice);
    return [route, along(dice, route.length), some(dice, { outside: (d) => d.pick(['refuse', 'clamp', 'maybe']) })];
  },
  sliceRoute: (dice) => {
    const route = anyRoute(dice);
    return [route, along(dice, route.length), along(dice, route.length)];
  },
  prepareRoute: (dice) => [anyRoute(dice)],
  reverseRoute: (dice) => [anyRoute(dice)],
  areasFromGeoJson: (dice) => [
    polygons(dice),
    some(dice, { kind: (d) => d.pick(['allowed', 'impossible', 'road']), name: text }),
  ],
  routeToGeoJson: (dice) => [anyRoute(dice)],
  joinRoutes: (dice) => [anyRoute(dice), anyRoute(dice), some(dice, { gap: (d) => d.pick(['line', 'refuse']) })],
  offsetRoute: (dice) => [
    anyRoute(dice),
    { side: side(dice), metres: about(dice, 5), ...some(dice, { join: (d) => d.pick(['round', 'mitre', 'bevel']) }) },
  ],
  repeatedStretches: (dice) => [anyRoute(dice), { maxDistance: about(dice, 5) }],
  places: (dice) => {
    const route = anyRoute(dice);
    return [quietly(() => snap(route, anyRecording(dice, route)))];
  },
  indexRoute: (dice) => [anyRoute(dice)],
  'indexRoute.nearest': (dice) => [
    anyPosition(dice),
    some(dice, { between: (d) => ({ from: about(d, 50), to: about(d, 300) }), maxDistance: (d) => about(d, 100) }),
  ],
  'indexRoute.candidates': (dice) => [anyPosition(dice), { maxDistance: about(dice, 50) }],
  'indexRoute.segmentsWithin': (dice) => [anyPosition(dice), about(dice, 50)],
  snap: (dice) => {
    const route = anyRoute(dice);
    return [
      route,
      anyRecording(dice, route),
      some(dice, { sigma: (d) => about(d, 5), maxDistance: (d) => about(d, 50) }),
    ];
  },
  followRoute: (dice) => [
    anyRoute(dice),
    some(dice, {
      lag: (d) => d.pick([0, 10, Infinity, about(d, 30)]),
      sigma: (d) => about(d, 5),
      maxDistance: (d) => about(d, 50),
    }),
  ],
  resumeFollowing: (dice) => {
    const route = anyRoute(dice);
    const { lon, lat, time } = anyRecording(dice, route);
    const follower = quietly(() => followRoute(route));
    for (let i = 0; i < Math.min(lon.length, 40); i++) {
      quietly(() => follower?.push({ position: [lon[i], lat[i]], ...(time && { time: time[i] }) }));
    }
    const saved = quietly(() => follower?.save());
    const key = dice.pick(Object.keys(saved ?? {}));
    return [dice.chance(0.9) ? route : anyRoute(dice), dice.chance(0.5) ? saved : { ...saved, [key]: anyJunk(dice) }];
  },
  snapTogether: (dice) => {
    const route = anyRoute(dice);
    return [route, dice.list(1, 3, () => anyRecording(dice, route)), some(dice, { sigma: (d) => about(d, 5) })];
  },
  hausdorff: lines,
  directedHausdorff: lines,
  discreteFrechet: lines,
  frechet: lines,
  withinFrechet: (dice) => [...lines(dice), about(dice, 10)],
  areaBetween: (dice) => {
    const route = anyRoute(dice);
    const recording = anyRecording(dice, route);
    const snapped = dice.chance(0.7)
      ? quietly(() => snap(route, recording))
      : { alongTrack: Float64Array.from(numbers(dice)), crossTrack: Float64Array.from(numbers(dice)) };
    return [route, snapped, some(dice, { gapBefore: () => recording.gapBefore })];
  },
  bufferShare: (dice) => [...lines(dice), about(dice, 10)],
  bufferWidth: (dice) => [
    ...lines(dice),
    dice.chance(0.5) ? dice.between(0, 1) : dice.pick([1, 0, undefined, anyNumber(dice)]),
  ],
  offsetStatistics: (dice) => {
    const values = numbers(dice);
    return [values, dice.chance(0.5) ? undefined : values.map(() => about(dice, 1))];
  },
  circularError: (dice) => {
    const values = numbers(dice);
    return [
      values,
      dice.chance(0.9) ? values.map(() => about(dice, 5)) : numbers(dice),
      some(dice, { axes: (d) => d.pick(['given', 'principal']) }),
    ];
  },
  readRecordings: read('gpx', 'tcx', 'kml', 'kmz', 'geojson', 'nmea', 'csv', 'fit', 'gzipped'),
  readRecording: read('gpx', 'tcx', 'kml', 'kmz', 'geojson', 'nmea', 'csv', 'fit', 'gzipped'),
  readLines: (dice) => read('gpx', 'tcx', 'kml', 'geojson', 'csv', 'fit')(dice).slice(0, 1),
  readGpx: read('gpx', 'kml', 'gzipped'),
  readTcx: read('tcx', 'gpx'),
  readKml: read('kml', 'kmz'),
  readGeoJson: read('geojson', 'csv'),
  readNmea: read('nmea', 'gpx'),
  readCsv: read('csv', 'nmea'),
  readFit: read('fit', 'gpx'),
  records: (dice) => [anyRecording(dice)],
  recordingFrom: (dice) => {
    const { lon, lat, time, height, name } = anyRecording(dice);
    return [{ lon, lat, time, height, name }];
  },
  writeGpx: written,
  writeKml: written,
  writeGeoJson: written,
  writeCsv: written,
  anonymise: (dice) => {
    const route = anyRoute(dice);
    return [
      anyRecording(dice, route),
      some(dice, {
        route: () => route,
        maxDistance: (d) => about(d, 50),
        zones: (d) => d.list(0, 2, () => ({ centre: anyPosition(d), radius: about(d, 100) })),
        times: (d) => d.pick(['relative', 'absolute', 'none']),
        since: anyNumber,
      }),
    ];
  },
  drawZone: (dice) => [
    anyPosition(dice),
    {
      radius: about(dice, 200),
      ...some(dice, { random: (d) => d.pick([() => 0.5, () => 0, () => 1, () => Number.NaN, 5]) }),
    },
  ],
  assess: (dice) => {
    const route = anyRoute(dice);
    const carried = dice.list(1, 3, (i) =>
      dice.chance(0.5)
        ? anyRecording(dice, route)
        : {
            recording: anyRecording(dice, route),
            ...some(dice, { receiver: () => `r${i}`, placement: text, run: (d) => d.pick(['1', '2']) }),
          },
    );
    return [
      route,
      carried,
      some(dice, {
        centreline: line,
        decoy: line,
        exclude: (d) => d.list(0, 2, () => ({ from: about(d, 20), to: about(d, 100), reason: text(d) })),
        equivalence: (d) => about(d, 1),
        leverArm: (d) => about(d, 1),
        baseline: (d) => d.pick(['A', 'r0', 'x']),
        defaultHalfWidth: (d) => about(d, 5),
        pace: (d) => d.pick(['shared', 'apart']),
        areas: (d) =>
          d.list(1, 3, (i) => ({
            name: d.chance(0.8) ? `area ${i}` : text(d),
            kind: d.pick(['allowed', 'impossible'] as const),
            geometry: { type: 'Polygon', coordinates: [ring(d)] },
            ...some(d, { doubt95: (e) => about(e, 2) }),
          })),
      }),
    ];
  },
  assessAsync: (dice) => makers.assess(dice),
  rowOf: (dice) => [
    document(dice, assessment(dice)),
    some(dice, { recording: (d) => d.pick(['A', 'r0', 'r1', '']), section: (d) => d.pick(['s0', null, 'x']) }),
  ],
  combine: (dice) => [
    assessments(dice),
    some(dice, { baseline: (d) => d.pick(['A', 'r0']), byTime: (d) => d.list(0, 2, () => timed(d)) }),
  ],
  combineAsync: (dice) => makers.combine(dice),
  runFigures: (dice) => [document(dice, assessment(dice), 0)],
  guessTest: (dice) => [
    dice.list(0, 6, () => ({
      file: `${text(dice)}.gpx`,
      name: text(dice),
      ...some(dice, { track: text, span: (d) => [about(d, 1e12), about(d, 1e12)] }),
    })),
  ],
  checkTestFile: (dice) => [
    {
      version: dice.chance(0.9) ? 1 : anyJunk(dice),
      route: text(dice),
      runs: dice.list(0, 2, () => ({
        name: text(dice),
        recordings: dice.list(0, 2, () => ({ file: text(dice), receiver: text(dice), ...some(dice, { zone: text }) })),
      })),
      ...some(dice, { name: text, options: anyJunk, notes: text }),
    },
  ],
  planTest: (dice) => [
    {
      sigma: about(dice, 3),
      correlationTime: about(dice, 20),
      seconds: about(dice, 600),
      difference: about(dice, 1),
      ...some(dice, {
        receivers: (d) => d.integer(1, 6),
        runs: (d) => d.integer(1, 9),
        betweenRuns: (d) => about(d, 1),
        leverArm: (d) => about(d, 1),
      }),
    },
  ],
  reportHtml: (dice) => [
    assessments(dice),
    some(dice, {
      title: text,
      byTime: (d) => (d.chance(0.5) ? timed(d) : d.list(0, 2, () => timed(d))),
      summary: (d) => quietly(() => combine([assessment(d), assessment(d)])),
      surroundings,
      credit: text,
    }),
  ],
  reportHtmlAsync: (dice) => makers.reportHtml(dice),
  planMap: view,
  ribbonMap: (dice) => [
    assessments(dice),
    some(dice, {
      width: (d) => about(d, 900),
      exaggeration: (d) => about(d, 20),
      receiver: (d) => d.pick(['r0', 'x']),
    }),
  ],
  stripChart: (dice) => [
    view(dice)[0],
    some(dice, {
      width: (d) => about(d, 900),
      section: (d) => d.pick(['s0', 'x']),
      panels: (d) => d.pick(['receiver', 'run', 'lap']),
    }),
  ],
  errorDistribution: view,
  reportPictures: (dice) => [
    assessments(dice),
    some(dice, {
      width: (d) => about(d, 1600),
      textSize: (d) => about(d, 20),
      theme: (d) => d.pick(['light', 'dark', 'reader', 'grey']),
      receivers: (d) => d.list(1, 2, () => d.pick(['r0', 'r1', 'x'])),
      surroundings,
      credit: text,
    }),
  ],
  toPng: (dice) => {
    const mark = `<circle r="${anyNumber(dice)}" cx="${about(dice, 20)}"/><text>${text(dice)}</text>`;
    const picture = `<svg xmlns="http://www.w3.org/2000/svg" width="${about(dice, 40)}" height="30">${mark}</svg>`;
    return [dice.chance(0.9) ? picture : dice.pick(nasty), some(dice, { fontFiles: () => ['/nowhere.ttf'] })];
  },
  errorsByTime: (dice) => {
    const route = anyRoute(dice);
    return [anyRecording(dice, route), anyRecording(dice, route), truthOptions(dice)];
  },
  judgeByTime: (dice) => {
    const route = anyRoute(dice);
    return [
      anyRecording(dice, route),
      dice.list(1, 3, () => anyRecording(dice, route)),
      { ...truthOptions(dice), ...some(dice, { route: () => route, equivalence: (d) => about(d, 1) }) },
    ];
  },
  combineByTime: (dice) => [dice.list(0, 3, () => timed(dice)), some(dice, { baseline: (d) => d.pick(['A', 'r0']) })],
  timedToCsv: (dice) => [
    dice.chance(0.5) ? timed(dice) : dice.list(0, 2, () => timed(dice)),
    some(dice, { summary: (d) => quietly(() => combineByTime([timed(d) as never])) }),
  ],
  routeFromTruth: (dice) => [
    anyRecording(dice, anyRoute(dice)),
    some(dice, { tolerance: (d) => about(d, 1), name: text }),
  ],
  draftRoute: (dice) => {
    const route = anyRoute(dice);
    return [dice.list(1, 3, () => anyRecording(dice, route)), some(dice, { tolerance: (d) => about(d, 2) })];
  },
  toCsv: (dice) => [assessments(dice)],
  toGeoJson: (dice) => [assessments(dice)],
};

/** Those that take milliseconds come up a fifth as often. */
const slow = new Set([
  'assess',
  'assessAsync',
  'combine',
  'combineAsync',
  'reportHtml',
  'reportHtmlAsync',
  'planMap',
  'ribbonMap',
  'stripChart',
  'errorDistribution',
  'reportPictures',
  'toCsv',
  'toGeoJson',
  'snap',
  'places',
  'resumeFollowing',
  'snapTogether',
  'judgeByTime',
  'combineByTime',
  'timedToCsv',
  'draftRoute',
]);

/** Those that take a tenth of a second, a hundredth as often. */
const slowest = new Set(['planTest', 'toPng']);

const calls = callables();
const unknown = [...calls.keys()].filter((name) => !Object.hasOwn(makers, name));
if (unknown.length > 0) throw new Error(`no fuzz knows ${unknown.join(', ')}`);
const gone = Object.keys(makers).filter((name) => !calls.has(name));
if (gone.length > 0) throw new Error(`there is no ${gone.join(', ')} any more`);

/** The functions that are called. */
export const calledNames = [...calls.keys()];

const quick = calledNames.filter((name) => !slow.has(name) && !slowest.has(name));

/** One argument, or a member of one, another: junk, or any number. */
function spoiled(dice: Dice, args: unknown[]): unknown[] {
  if (dice.chance(0.75)) return args;
  const out = [...args];
  const at = dice.integer(0, out.length);
  const target = out[at];
  const plain = typeof target === 'object' && target !== null && Object.getPrototypeOf(target) === Object.prototype;
  if (plain && dice.chance(0.6)) {
    const key =
      dice.chance(0.8) && Object.keys(target).length > 0
        ? dice.pick(Object.keys(target))
        : dice.pick(['x', '__proto__', 'constructor']);
    const copy = { ...target };
    // as a document would have it: a member of its own, whatever its name
    Object.defineProperty(copy, key, {
      // what is unknown may come back as it was given
      value: !Object.hasOwn(target, key) ? dice.pick(['y', {}]) : dice.chance(0.5) ? anyJunk(dice) : anyNumber(dice),
      enumerable: true,
      writable: true,
      configurable: true,
    });
    out[at] = copy;
  } else if (Array.isArray(target) && target.length > 0 && dice.chance(0.6)) {
    const copy = [...target];
    copy[dice.integer(0, copy.length - 1)] = dice.chance(0.5) ? anyJunk(dice) : anyNumber(dice);
    out[at] = copy;
  } else out[at] = anyJunk(dice);
  return out;
}

function callOf(name: string, dice: Dice): (...args: never[]) => unknown {
  const [holder, method] = name.split('.');
  if (method === undefined) return calls.get(name)!;
  if (holder === 'indexRoute') return indexRoute(anyRoute(dice))[method as 'nearest'] as never;
  if (holder === 'localPlane')
    return localPlane([dice.between(-180, 180), dice.between(-90, 90)])[method as 'toPlane'] as never;
  return ((start: [number, number], ...rest: never[]) => {
    const builder = routeBuilder({ maxSpacing: 2000, maxSagitta: 100 });
    if (method !== 'start') builder.start(start).lineBy({ azimuth: 80, distance: 60 });
    (builder[method as 'mark'] as (...given: unknown[]) => unknown)(...rest);
    return (
      method === 'start' || method === 'moveOver' ? builder.lineBy({ azimuth: 5, distance: 70 }) : builder
    ).build();
  }) as never;
}

/** A public function called with what it may be given, or not: an answer without NaN, or an InputError. Named before it is called. */
export async function callCase(
  dice: Dice,
  begun: (name: string) => void = () => {},
): Promise<{ readonly name: string; readonly fault?: string }> {
  let name = dice.pick(calledNames);
  if ((slow.has(name) && dice.chance(0.8)) || (slowest.has(name) && dice.chance(0.99))) name = dice.pick(quick);
  begun(name);
  const call = callOf(name, dice);
  const args = spoiled(dice, makers[name](dice));
  try {
    const given = await call(...(args as never[]));
    // what comes one by one is asked for to its end
    const answer = Object.prototype.toString.call(given) === '[object Generator]' ? [...(given as Iterable<unknown>)] : given; // biome-ignore format: one line
    const drawn = typeof answer === 'string' && /^write|^read/.test(name);
    const fault = drawn ? undefined : unsoundAt(answer);
    return fault === undefined ? { name } : { name, fault };
  } catch (error) {
    if (error instanceof InputError) return { name };
    const { stack = String(error) } = error as Error;
    return { name, fault: stack.split('\n').slice(0, 4).join(' | ') };
  }
}
