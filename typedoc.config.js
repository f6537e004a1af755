import { OptionDefaults } from 'typedoc';

/** @type {Partial<import('typedoc').TypeDocOptions>} */
export default {
  name: 'datumline',
  entryPoints: [
    'src/subpaths/geodesy.ts',
    'src/subpaths/route.ts',
    'src/subpaths/snap.ts',
    'src/subpaths/metrics.ts',
    'src/subpaths/formats.ts',
    'src/subpaths/assess.ts',
    'src/subpaths/report.ts',
  ],
  out: 'docs/api',
  readme: 'docs/front.md',
  projectDocuments: ['docs/!(front).md', 'examples/*/README.md'],
  navigation: { includeGroups: true },
  // Tags that the JSON Schemas are bounded by.
  blockTags: [
    ...OptionDefaults.blockTags,
    '@asType',
    '@minimum',
    '@exclusiveMinimum',
    '@maximum',
    '@minLength',
    '@minItems',
    '@pattern',
    '@discriminator',
  ],
  excludeInternal: true,
  excludePrivate: true,
  includeVersion: true,
  disableSources: true,
  sort: ['kind', 'source-order'],
  kindSortOrder: ['Document', 'Module', 'Function', 'Class', 'Interface', 'TypeAlias', 'Variable'],
  // what a follower saves is read by resumeFollowing alone
  intentionallyNotExported: [
    ...['SavedClock', 'SavedPace', 'SavedSigma', 'SavedState', 'SavedStates'],
    ...['PlacedFix', 'SweepWeights', 'OpenFix', 'RecentKnot'],
  ],
  validation: { notExported: true, invalidLink: true, notDocumented: false },
  treatWarningsAsErrors: true,
};
