/** One file of src by the test that mirrors it; `npm run mutants` calls it file by file, with the path in MUTANTS. */
const file = process.env.MUTANTS;

export default {
  mutate: [file],
  testRunner: 'vitest',
  vitest: { configFile: 'test/mutants/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  concurrency: 1,
  timeoutMS: 6_000,
  reporters: ['clear-text', 'json'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false, reportScoreTable: false },
  jsonReporter: { fileName: `coverage/mutants/${file?.replaceAll('/', '-')}.json` },
  tempDirName: 'coverage/mutants/sandbox',
  ignorePatterns: ['docs', 'examples', 'bench', 'dist'],
};
