/** Three runs on three days; each receiver was worn at each place once, so that receiver and place can be told apart. */
export const demoRuns = [
  { run: 'run 1', date: '2030-05-04T08:00:00Z', worn: { A: 'handlebar', B: 'chest', C: 'helmet' } },
  { run: 'run 2', date: '2030-05-11T11:30:00Z', worn: { A: 'chest', B: 'helmet', C: 'handlebar' } },
  { run: 'run 3', date: '2030-05-18T15:10:00Z', worn: { A: 'helmet', B: 'handlebar', C: 'chest' } },
] as const;

/** Where the recording of one receiver in one run is kept. */
export function recordingFile(run: string, receiver: string): URL {
  return new URL(`./recordings/${run.replace(' ', '-')}-receiver-${receiver.toLowerCase()}.gpx`, import.meta.url);
}
