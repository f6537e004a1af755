import type { Place, ReportModel } from './reportModel';

/** Numbers that a picture of the whole route can hold before they hide it. */
const SHOWN = 8;

/** The worst places, those that get a number in every picture; all others stand in the files. */
export function shownPlaces({ places }: ReportModel): readonly Place[] {
  return places.filter(({ number }) => number <= SHOWN);
}
