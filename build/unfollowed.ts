/**
 * Code that tells bundlers not to follow an import whose name is put together when it is called. The comments that say so stand in
 * the sources too, but making code small drops them.
 */
export function unfollowed(code: string): string {
  return code.replace(/\bimport\((?=[\w$]+\.join\("\/"\)\))/g, 'import(/* @vite-ignore */ /* webpackIgnore: true */ ');
}
