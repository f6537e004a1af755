import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { assess, combine } from 'datumline';
import { demoRide } from './demoRide';

// One run judged here, one by whatever engine ENGINE names: assessments are JSON, and the same route has the same hash.
const judge = (run: string) => {
  const rides = ['A', 'B', 'C'].map((receiver) => demoRide(receiver, run));
  return assess(rides[0].route, rides.map(({ recording }) => ({ recording, receiver: recording.name, run }))); // biome-ignore format: one line
};
const words = [...process.execArgv, fileURLToPath(import.meta.url), 'run 2'];
const there = () => JSON.parse(`${execFileSync(process.env.ENGINE ?? process.execPath, words, { maxBuffer: 1e8 })}`);
if (process.argv.includes('run 2')) console.log(JSON.stringify(judge('run 2')));
else console.log(`engines: ${combine([judge('run 1'), there()]).runs.length} runs combined`);
