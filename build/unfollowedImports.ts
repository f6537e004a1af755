import type { Options } from 'tsup';

type Plugin = NonNullable<Options['plugins']>[number];

/**
 * Tells bundlers not to follow an import whose name is put together when it is called. The comments that say so stand in the
 * sources too, but making the code small drops them.
 */
export const unfollowedImports: Plugin = {
  name: 'unfollowed imports',
  renderChunk(code) {
    const told = code.replace(
      /\bimport\((?=[\w$]+\.join\("\/"\)\))/g,
      'import(/* @vite-ignore */ /* webpackIgnore: true */ ',
    );
    return { code: told };
  },
};
