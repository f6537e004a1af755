import { type Assessment, assess, judgeByTime } from 'datumline';
import {
  errorDistribution,
  planMap,
  reportHtml,
  reportHtmlAsync,
  reportPictures,
  ribbonMap,
  stripChart,
  timedToCsv,
  toCsv,
  toGeoJson,
  toPng,
} from 'datumline/report';
import { judgedMany, manyOf } from './assessCases';
import type { GrowthCase } from './GrowthCase';
import { along, squareLaps } from './inputs';

const drawers: Record<string, (assessment: Assessment) => unknown> = {
  reportHtml,
  reportHtmlAsync,
  planMap,
  ribbonMap,
  stripChart,
  errorDistribution,
  reportPictures,
  toCsv,
  toGeoJson,
};
const inputs: readonly Pick<GrowthCase, 'input' | 'kind' | 'least' | 'stated'>[] = [
  { input: 'three receivers, n fixes each', kind: 'easy', least: 100 },
  {
    ...{ input: 'n receivers, 60 fixes each', kind: 'hostile', least: 2 },
    stated: { exponent: 2, says: 'pairs grow with the square of the receivers' },
  },
  { input: 'n laps of four sections of 8 m', kind: 'hostile', least: 4 },
];
/** Assessments to draw, made once each. */
const made = new Map<string, Assessment>();
function judged(input: string, n: number): Assessment {
  const key = `${input} ${n}`;
  const found = made.get(key);
  if (found) return found;
  let fresh: Assessment;
  if (input === inputs[0].input) fresh = assess(...manyOf(3, n));
  else if (input === inputs[1].input) fresh = judgedMany(n);
  else {
    const route = squareLaps(n, 8, 'sections');
    fresh = assess(route, [along(route)]);
  }
  made.set(key, fresh);
  return fresh;
}

export const reportCases: readonly GrowthCase[] = [
  ...Object.entries(drawers).flatMap(([of, draw]) =>
    inputs.map(
      (one): GrowthCase => ({
        of,
        ...one,
        ...(of === 'reportPictures' && one === inputs[2]
          ? { stated: { exponent: 2, says: 'grows with the square of the laps' } }
          : {}),
        make: (n) => {
          const assessment = judged(one.input, n);
          return () => draw(assessment);
        },
      }),
    ),
  ),
  {
    of: 'timedToCsv',
    input: 'n receivers, 60 fixes each',
    kind: 'hostile',
    least: 2,
    make: (n) => {
      const [, [truth, ...recordings]] = manyOf(n + 1, 60);
      const timed = judgeByTime(truth, recordings);
      return () => timedToCsv(timed);
    },
  },
  {
    of: 'toPng',
    input: 'n circles on 100 × 100',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const circles = Array.from({ length: n }, (_, i) => `<circle r="1" cx="${i % 100}" cy="${(i / 7) % 100}"/>`);
      const picture = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">${circles.join('')}</svg>`;
      return () => toPng(picture);
    },
  },
];
