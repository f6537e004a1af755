import { assess } from 'datumline';
import { planMap, reportHtml, stripChart, toCsv, toGeoJson } from 'datumline/report';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { windingRide } from './support/windingRide';

/** What a page of that size may weigh. */
const MOST_MEGABYTES = 0.8;

/** From an assessment to what a reader opens: time, and the size of what is written. No peers draw this report. */
export const run: Bench = ({ smoke }) => {
  const length = smoke ? 1000 : 10_000;
  const { route, recordings } = windingRide(length);
  const assessment = assess(route, recordings);
  const size = `6 recordings × ${length / 1000} km at 1 Hz`;
  const makers = {
    reportHtml: () => reportHtml(assessment),
    planMap: () => planMap(assessment),
    stripChart: () => stripChart(assessment),
    toCsv: () => toCsv(assessment),
    toGeoJson: () => JSON.stringify(toGeoJson(assessment)),
  };
  const times = medianTime(
    Object.fromEntries(Object.entries(makers).map(([name, make]) => [name, () => make().length])),
    smoke ? 1 : 7,
  );
  const megabytes = (make: () => string) => new TextEncoder().encode(make()).length / 1e6;
  const report = megabytes(makers.reportHtml);
  return [
    {
      what: `reportHtml, ${size}: its size`,
      ours: `${report.toFixed(2)} MB`,
      promise: `≤ ${MOST_MEGABYTES} MB`,
      held: report <= MOST_MEGABYTES,
    },
    ...Object.entries(makers).map(([name, make]) => ({
      what: `${name}, ${size}: ${megabytes(make).toFixed(2)} MB`,
      ...(name === 'reportHtml' ? promised(times[name], 150) : { ours: showTime(times[name]) }),
    })),
  ];
};
