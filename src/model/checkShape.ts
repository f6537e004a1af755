import { checkArray } from './checkArray';
import { checkNumber } from './checkNumber';
import { checkString } from './checkString';
import { InputError } from './InputError';
import type { Shape, Shapes } from './Shape';

/**
 * Refuses a value, or one within it, that has not the shape it must have, and names the place; members that no shape speaks
 * of are passed by.
 *
 * @throws {InputError} `wrong-type`, `not-finite`, `out-of-range` or `too-few`
 */
export function checkShape(value: unknown, shape: Shape, shapes: Shapes, argument: string): void {
  if (typeof shape === 'string') {
    if (shape === 'string') checkString(value, argument);
    else if (shape === 'boolean' || shape === 'null') checkWord(value, shape, argument);
    else checkShape(value, shapes[shape.slice(1)], shapes, argument);
  } else if ('any' in shape) checkAny(value, shape.any, shapes, argument);
  else if ('oneOf' in shape) {
    if (shape.oneOf.includes(value as string)) return;
    const rule = shape.oneOf.map((one) => JSON.stringify(one)).join(' or ');
    throw new InputError({ reason: 'wrong-type', argument, rule, value });
  } else if ('items' in shape) {
    const { items, least = 0, most = Infinity } = shape;
    checkArray(value, argument);
    if (value.length < least || value.length > most) {
      const rule = `an array of ${least === most ? least : `at least ${least}`}`;
      throw new InputError({ reason: 'too-few', argument, rule, value });
    }
    const may = plainMember(items);
    for (let i = 0; i < value.length; i++) {
      // long columns: a name for each of their members would cost more than all else
      if (!may?.(value[i])) checkShape(value[i], items, shapes, `${argument}[${i}]`);
    }
  } else if ('must' in shape) {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      throw new InputError({ reason: 'wrong-type', argument, rule: 'an object', value });
    }
    const { must, may = {} } = shape;
    const members = value as Readonly<Record<string, unknown>>;
    for (const key of Object.keys(must)) checkShape(members[key], must[key], shapes, `${argument}.${key}`);
    for (const key of Object.keys(may)) {
      if (members[key] !== undefined) checkShape(members[key], may[key], shapes, `${argument}.${key}`);
    }
  } else checkNumber(value, argument, shape);
}

function checkWord(value: unknown, word: 'boolean' | 'null', argument: string): void {
  if (word === 'null' ? value === null : typeof value === 'boolean') return;
  const rule = word === 'null' ? 'null' : 'true or false';
  throw new InputError({ reason: 'wrong-type', argument, rule, value });
}

/** Of several shapes none of which fits, what is against the last is told: null is mostly the first. */
function checkAny(value: unknown, any: readonly Shape[], shapes: Shapes, argument: string): void {
  // before any fault is made: an error costs more than all else
  if (any.some((shape) => isWord(value, shape))) return;
  let fault: unknown;
  for (const shape of any) {
    if (shape === 'null') continue;
    try {
      checkShape(value, shape, shapes, argument);
      return;
    } catch (error) {
      fault = error;
    }
  }
  throw fault;
}

/** Whether a value is a word that a shape allows, or null where that is the shape. */
function isWord(value: unknown, shape: Shape): boolean {
  if (typeof shape === 'string') return shape === 'null' && value === null;
  return 'oneOf' in shape && shape.oneOf.includes(value as string);
}

/** What passes the most frequent shapes, a number without bounds or null, at a glance; undefined for another shape. */
function plainMember(shape: Shape): ((value: unknown) => boolean) | undefined {
  if (typeof shape === 'string') return undefined;
  if (Object.keys(shape).length === 0) return Number.isFinite;
  if (!('any' in shape) || shape.any.length !== 2 || shape.any[1] !== 'null') return undefined;
  const [first] = shape.any;
  if (typeof first === 'string' || Object.keys(first).length > 0) return undefined;
  return (value) => value === null || Number.isFinite(value);
}
