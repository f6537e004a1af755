const LAG = 'test/statistics/correlationLag.test.ts';
const SCATTER = 'test/statistics/JointScatter.test.ts';

/** Files that another's test judges. */
const elsewhere: Record<string, string> = {
  'src/statistics/autocorrelation.ts': LAG,
  'src/statistics/CosineWaves.ts': SCATTER,
  'src/statistics/memoryOf.ts': SCATTER,
  'src/statistics/correlationLag.ts': LAG,
};

/** The test that judges a file of src: the one in its place under test/, but for some. */
export function testOf(file: string): string {
  return elsewhere[file] ?? file.replace(/^src(.*)\.ts$/, 'test$1.test.ts');
}
