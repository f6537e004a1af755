import { Worker } from 'node:worker_threads';
import { offsetStatistics, type Snapped } from 'datumline';
import { demoRide } from './demoRide';

// Routes and recordings are plain data: they go to a worker, and what it found comes back, as they are.
const worker = new Worker(new URL('./placeThere.js', import.meta.url), { workerData: demoRide('C') });
const { crossTrack } = await new Promise<Snapped>((resolve, reject) => {
  worker.on('message', resolve).on('error', reject);
});
const { n } = offsetStatistics(crossTrack.filter((metres) => !Number.isNaN(metres)));
console.log(`worker: ${n > 500 ? 'placed' : 'lost'}`);
