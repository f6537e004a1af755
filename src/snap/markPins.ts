import type { Recording, Route } from '../model';
import type { Pin } from './LatticeStates';

/** How well a press of a button says where one is: metres, and metres for each second to the nearest fix. */
const PRESS = 8;
const DRIFT = 3;

/** A mark further in time than this from every fix, in seconds, pins nothing. */
const TOO_LONG = 10;

/** A pin for each mark of the route that has a time within the recording, at the fix nearest in time. */
export function markPins(route: Route, { time }: Recording): Pin[] {
  if (time === undefined) return [];
  const pins: Pin[] = [];
  for (const mark of route.marks) {
    if (mark.time === undefined) continue;
    let fix = -1;
    let seconds = TOO_LONG;
    for (let i = 0; i < time.length; i++) {
      const away = Math.abs(time[i] - mark.time) / 1000;
      if (away < seconds) {
        seconds = away;
        fix = i;
      }
    }
    if (fix >= 0) pins.push({ fix, alongTrack: mark.alongTrack, sd: PRESS + DRIFT * seconds });
  }
  return pins;
}
