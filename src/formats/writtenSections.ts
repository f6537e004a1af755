import type { Route } from '../model';
import { xmlText } from './buildXml';

/** The sections of a route in words, each on a line of its own; `undefined` where it has none. */
export function writtenSections({ sections }: Route): string | undefined {
  if (sections.length === 0) return;
  const lines = sections.map(({ name, from, to, halfWidth, environment, lap }, i) => {
    const words = [
      `${name}${lap === undefined ? '' : `, lap ${lap}`}: ${from.toFixed(1)}–${to.toFixed(1)} m`,
      ...(halfWidth === undefined ? [] : [`half width ${halfWidth} m`]),
      ...(environment === undefined ? [] : [environment]),
    ];
    return xmlText(words.join(', '), `route.sections[${i}]`);
  });
  return lines.join('\n');
}
