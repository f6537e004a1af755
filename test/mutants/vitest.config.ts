import suite from '../../vitest.config';

/** The test of one file of src alone, the one in its place under test/. */
const mirror = process.env.MUTANTS!.replace(/^src(.*)\.ts$/, 'test$1.test.ts');

export default { ...suite, test: { ...suite.test, include: [mirror] } };
