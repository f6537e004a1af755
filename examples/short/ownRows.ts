import { recordingFrom, records } from 'datumline';

// Rows of one's own, from a database say, are a recording; a recording is rows again, fix by fix.
const rows = [
  { at: '2026-05-01T08:00:00Z', x: 5, y: 60, up: 12 },
  { at: '2026-05-01T08:00:01Z', x: 5.0001, y: 60, up: null },
];
const column = <K extends keyof (typeof rows)[0]>(key: K) => rows.map((row) => row[key]);
const time = column('at').map((at) => new Date(at));
const recording = recordingFrom({ lon: column('x'), lat: column('y'), height: column('up'), time, name: 'mine' });
for (const { index, position } of records(recording)) console.log(`rows: ${index} at ${position.join(' ')}`);
