import { readFileSync } from 'node:fs';
import { type Plugin, transformSync } from 'esbuild';

/**
 * `geographiclib-geodesic` as a module that a bundler may leave out, made of the package's own sources: what it publishes as one
 * file runs when it is loaded, so that whoever imported one error class had all of it. Areas of polygons, which nothing here
 * asks for, stay out.
 */
export const bareGeodesics: Plugin = {
  name: 'bare geodesics',
  setup(build) {
    build.onLoad({ filter: /geographiclib-geodesic\.min\.js$/ }, ({ path }) => {
      const sources = ['Math', 'Geodesic', 'GeodesicLine'].map((name) =>
        readFileSync(path.replace(/geographiclib-geodesic\.min\.js$/, `src/${name}.js`), 'utf8'),
      );
      return {
        contents: transformSync(
          `export default /* @__PURE__ */ (() => {\n${sources.join('\n')}\nreturn geodesic;\n})();\n`,
          { minifyIdentifiers: true, target: 'es2022' },
        ).code,
        loader: 'js',
      };
    });
  },
};
