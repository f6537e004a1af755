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
    const either: readonly Shape[] = typeof items === 'object' && 'any' in items ? items.any : [items];
    const from = plainFrom(either[0], shapes);
    const nulls = either.includes('null');
    // long columns: a name for each of their members would cost more than all else
    for (let i = nextOdd(value, 0, from, nulls); i < value.length; i = nextOdd(value, i + 1, from, nulls)) {
      checkShape(value[i], items, shapes, `${argument}[${i}]`);
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

/** From where on every finite number has the shape, NaN for nowhere: of the most frequent shapes without making a name or a call. */
function plainFrom(shape: Shape, shapes: Shapes): number {
  const named = typeof shape === 'string' && shape.startsWith('#') ? shapes[shape.slice(1)] : shape;
  if (typeof named === 'string') return Number.NaN;
  const { min = -Number.MAX_VALUE, ...rest } = named as { readonly min?: number };
  return Object.keys(rest).length === 0 ? min : Number.NaN;
}

/** Where in a column, from a place on, there is something else than a number from a least one on, or null where that may be. */
function nextOdd(column: readonly unknown[], begin: number, from: number, nulls: boolean): number {
  let i = begin;
  for (; i < column.length; i++) {
    const one = column[i];
    if (typeof one === 'number' ? !(one >= from && one <= Number.MAX_VALUE) : !(nulls && one === null)) break;
  }
  return i;
}
