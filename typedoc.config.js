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
  readme: 'README.md',
  // Tags that the JSON Schemas are bounded by.
  blockTags: [
    ...OptionDefaults.blockTags,
    '@asType',
    '@minimum',
    '@exclusiveMinimum',
    '@maximum',
    '@minLength',
    '@minItems',
    '@discriminator',
  ],
  excludeInternal: true,
  excludePrivate: true,
  includeVersion: true,
  disableSources: true,
  sort: ['source-order'],
  validation: { notExported: true, invalidLink: true, notDocumented: false },
  treatWarningsAsErrors: true,
};
