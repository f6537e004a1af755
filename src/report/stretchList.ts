import { showList } from './showFigures';

/** Stretches with what is to be said of each: "on “quay” (8.1 m) and over the whole route (2.3 m)"; null is the whole route. */
export function stretchList(
  stretches: readonly (string | null)[],
  more: (stretch: string | null) => string = () => '',
): string {
  const words = stretches.map((stretch, i) => {
    const after = more(stretch);
    const said = stretch === null ? 'over the whole route' : `${i === 0 ? 'on ' : ''}“${stretch}”`;
    return after === '' ? said : `${said} (${after})`;
  });
  return showList(words);
}
