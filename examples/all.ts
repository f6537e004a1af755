import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Runs every example: each folder's program of the same name, in a process of its own. */
const folder = fileURLToPath(new URL('.', import.meta.url));
let failed = 0;
let passed = 0;
for (const { name } of readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'out')
  .sort((a, b) => a.name.localeCompare(b.name))) {
  const { status } = spawnSync('npx', ['tsx', `${folder}/${name}/${name}.ts`], { stdio: 'inherit' });
  console.log(`example ${name}: ${status === 0 ? 'ran' : `failed with ${status}`}\n`);
  if (status === 0) passed++;
  else failed++;
}
if (failed > 0 || passed === 0) process.exit(1);
