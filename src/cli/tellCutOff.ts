import type { Recording } from '../model';
import { tell } from './tell';

/** Whether a file that these were read from ends too soon; if so it is told, with how much of it there was. */
export function tellCutOff(file: string, recordings: readonly Recording[]): boolean {
  if (!recordings.some(({ issues }) => issues.some(({ reason }) => reason === 'cut-off'))) return false;
  const points = recordings.reduce((sum, { lon }) => sum + lon.length, 0);
  // a FIT file may be damaged with its end in place
  const what = recordings[0].source.format === 'fit' ? 'is cut off or damaged' : 'is cut off';
  tell(`${file} ${what}: the ${points} points before were used`);
  return true;
}
