import type { Position } from 'geojson';
import type { Route } from '../model';
import { pointAt } from '../route';
import { xmlText } from './buildXml';
import { writeTime } from './writeTime';

/** A mark of a route as the XML writers put it: its texts can stand in XML. */
export interface WrittenMark {
  readonly name: string;
  readonly position: Position;
  /** When it was passed, where that is known and asked for. */
  readonly time?: string;
}

/** The marks of a route, each in its place on the line; in a lap the name says which. */
export function writtenMarks(route: Route, times: 'absolute' | 'none'): WrittenMark[] {
  return route.marks.map(({ name, alongTrack, time, lap }, i) => ({
    name: xmlText(lap === undefined ? name : `${name}, lap ${lap}`, `route.marks[${i}].name`),
    position: pointAt(route, alongTrack, { outside: 'clamp' }).position,
    time: times === 'absolute' && time !== undefined ? writeTime(time, `route.marks[${i}].time`) : undefined,
  }));
}
