import { bufferShare, hausdorff, inverse } from 'datumline';

// Plain arrays, typed arrays, tuples that nobody may write to: a line is what can be gone through.
const survey = [[5, 60], [5.002, 60]] as const; // biome-ignore format: one line
const mine = { lon: Float64Array.of(5, 5.001, 5.002), lat: [60, 60.0001, 60] };
const { distance } = hausdorff(mine, survey);
console.log(`arrays: ${distance.toFixed(2)} m apart, ${(100 * bufferShare(mine, survey, 6)).toFixed(0)} % within 6 m`);
console.log(`arrays: ${inverse(...survey).distance.toFixed(2)} m from end to end`);
