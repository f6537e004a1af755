import { cannot } from './CommandError';
import type { NumberedLine } from './linesIn';
import { readJson } from './readJson';

/** Keys of the user's own come back with the answer; so deep they may be nested. */
const MOST_NESTED = 100;

/** The object of a line, which can be written out again. */
export function lineObject({ text, number, fault }: NumberedLine): Readonly<Record<string, unknown>> {
  const place = `line ${number}`;
  if (fault !== undefined) throw cannot(place, fault);
  const value = readJson(text, place);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw cannot(place, 'not a JSON object');
  if (isDeep(value)) throw cannot(place, `nested more than ${MOST_NESTED} deep`);
  return value as Record<string, unknown>;
}

function isDeep(value: object): boolean {
  let level: object[] = [value];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > MOST_NESTED) return true;
    level = level.flatMap((one): object[] =>
      Object.values(one).filter((inner) => inner !== null && typeof inner === 'object'),
    );
  }
  return false;
}
