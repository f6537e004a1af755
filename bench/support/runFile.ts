import './asPublished';
import type { Bench } from './Bench';

// Started by all.ts, one process a file: a heap that one bench has filled, or a crash, is not the next one's.
const [file, how] = process.argv.slice(2);
const { run } = (await import(file)) as { run: Bench };
const rows = await run({ smoke: how === 'smoke' });
process.send!(rows, () => process.disconnect());
