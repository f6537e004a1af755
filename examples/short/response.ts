import { readRecordings } from 'datumline';

// Whatever a request brought, the format told by its content; a File that somebody dropped is read the same way.
const table = 'time,lat,lon\n2026-05-01T08:00:00Z,60,5\n2026-05-01T08:00:05Z,60.0001,5.0001\n';
const [recording] = await readRecordings(await fetch(`data:text/csv,${encodeURIComponent(table)}`), {
  name: 'fetched',
});
console.log(`response: ${recording.name}, ${recording.source.format}, ${recording.lon.length} fixes`);
