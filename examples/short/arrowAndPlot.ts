import * as Plot from '@observablehq/plot';
import { tableFromArrays } from 'apache-arrow';
import { snap } from 'datumline';
import { JSDOM } from 'jsdom';
import { demoRide } from './demoRide';

// Columns are an Arrow table without a copy; a plot takes the table as it is.
const { route, recording } = demoRide('A');
const { alongTrack, crossTrack } = snap(route, recording);
const table = tableFromArrays({ time: recording.time!, alongTrack, crossTrack });
const mark = Plot.line(table, { x: 'alongTrack', y: 'crossTrack' });
const picture = Plot.plot({ document: new JSDOM('').window.document, marks: [mark] });
console.log(`arrow: ${table.numRows} rows; plot: ${picture.outerHTML.length > 1000 ? 'drawn' : 'empty'}`);
