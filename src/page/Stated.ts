import type { TestFile, TestRun } from 'datumline';

/** What a test file states beside its recordings and its line: kept, used, and written again. */
export interface Stated {
  readonly test: Pick<TestFile, 'name' | 'options' | 'looks' | 'exclusions' | 'notes'>;
  readonly runs: readonly Omit<TestRun, 'recordings'>[];
}
