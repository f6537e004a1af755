import type { Recording, Route } from 'datumline';
import type { GeoJSON } from 'geojson';
import type { Entry } from '../recordings/Entry';
import type { Stated } from '../Stated';
import type { CompanionKey, GivenFile, Plan, PlannedRecording, PlannedRun } from '../work/Task';

interface Ingredients {
  readonly number: number;
  readonly route: Route | null;
  readonly fault: string | null;
  readonly entries: readonly Entry[];
  readonly stated: Stated;
  readonly companions: { readonly [key in CompanionKey]?: GivenFile };
  readonly truths: { readonly [run: string]: { readonly recording: Recording; readonly given: GivenFile } };
  readonly surroundings: GeoJSON | null;
}

/** What a report is to be made of, or the sentence of what is missing for one. */
export function planOf(given: Ingredients): Plan | string {
  const { number, route, fault, entries, stated, companions, truths, surroundings } = given;
  if (route === null) {
    return fault === null ? 'Draw or open the line first.' : `The line can't be built yet: ${fault}`;
  }
  const read = entries.filter(({ recording }) => recording !== null);
  if (read.length === 0) return 'Add a recording first.';
  const nameless = read.find(({ receiver, run }) => receiver.trim() === '' || run.trim() === '');
  if (nameless) return `Say the receiver and the run of ${nameless.path}.`;
  const runs: PlannedRun[] = [...new Set(read.map(({ run }) => run.trim()))].map((name) => {
    const own = stated.runs.find((run) => run.name === name);
    return {
      ...{ name, date: own?.date, notes: own?.notes, exclusions: own?.exclusions ?? [] },
      recordings: read.filter(({ run }) => run.trim() === name).map(plannedRecording),
      truth: Object.hasOwn(truths, name) ? truths[name] : undefined,
    };
  });
  return {
    ...{ number, route, runs, companions, surroundings, stated: stated.test },
    leftOut: entries.flatMap(({ path, fault: why }) => (why === null ? [] : [`${path.replace(/^.*\//, '')}: ${why}`])),
  };
}

const plannedRecording = (entry: Entry): PlannedRecording => ({
  ...{ recording: entry.recording!, receiver: entry.receiver.trim(), placement: entry.placement.trim() || undefined },
  ...{ given: { path: entry.path, file: entry.file! }, zone: entry.zone, track: entry.track, notes: entry.notes },
});
