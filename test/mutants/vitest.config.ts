import suite from '../../vitest.config';
import { testOf } from './testOf';

/** The test of one file of src alone. */
export default { ...suite, test: { ...suite.test, projects: undefined, include: [testOf(process.env.MUTANTS!)] } };
