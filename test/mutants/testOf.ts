const SAMPLES = 'test/statistics/effectiveSamples.test.ts';

/** Files that another's test judges. */
const elsewhere: Record<string, string> = {
  'src/statistics/autocorrelation.ts': SAMPLES,
  'src/statistics/correlationLag.ts': SAMPLES,
};

/** The test that judges a file of src: the one in its place under test/, but for some. */
export function testOf(file: string): string {
  return elsewhere[file] ?? file.replace(/^src(.*)\.ts$/, 'test$1.test.ts');
}
