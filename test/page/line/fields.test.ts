import type { RecipeStep } from 'datumline';
import { describe, expect, test } from 'vitest';
import { documentSchema } from '../../../schemas.config';
import { areaIn, areaRows, positionsIn, rowsOf } from '../../../src/page/line/positionRows';
import { fieldOf, stepFields, withField } from '../../../src/page/line/stepFields';

interface Branch {
  readonly properties: { readonly [key: string]: { readonly const?: string } };
}

/** Every kind of step, as the schema of a recipe lists them. */
function branches(): Branch[] {
  const found: Branch[] = [];
  const walk = (part: unknown): void => {
    if (typeof part !== 'object' || part === null) return;
    const { properties } = part as Branch;
    if (properties?.call?.const !== undefined) found.push(part as Branch);
    for (const inner of Object.values(part)) walk(inner);
  };
  walk(documentSchema('recipe'));
  return found;
}

describe('what the list can say', () => {
  test('everything a step says has a field, but what holds other steps or recipes, and what a draft remembers', () => {
    const asked = branches().map(({ properties }) => {
      const call = properties.call.const as RecipeStep['call'];
      const keys = Object.keys(properties).filter(
        (key) => !['call', 'steps', 'recipe', 'recipes', 'drafted'].includes(key),
      );
      const fields = stepFields({ call } as RecipeStep).map(({ key }) => key.split('.')[0]);
      return { call, missing: keys.filter((key) => !fields.includes(key)) };
    });
    expect(new Set(asked.map(({ call }) => call)).size).toBe(17);
    expect(asked.filter(({ missing }) => missing.length > 0)).toEqual([]);
  });

  test('a field set and taken away again leaves the step as it was; a side and its metres go together', () => {
    const follow: RecipeStep = {
      call: 'follow',
      line: [
        [5, 60],
        [5.1, 60],
      ],
    };
    expect(withField(withField(follow, 'from', 3), 'from', undefined)).toEqual(follow);
    expect(withField(follow, 'metres', 2)).toEqual({ ...follow, metres: 2, side: 'right' });
    expect(withField({ ...follow, metres: 2, side: 'left' }, 'metres', undefined)).toEqual(follow);
    expect(withField({ ...follow, metres: 2, side: 'left' }, 'side', undefined)).toEqual(follow);
    const out: RecipeStep = { call: 'outAndBack', steps: [] };
    const beside = withField(out, 'returnBeside.metres', 6);
    expect(beside).toEqual({ ...out, returnBeside: { side: 'left', metres: 6 } });
    expect(fieldOf(beside, 'returnBeside.side')).toBe('left');
    expect(withField(beside, 'returnBeside.side', undefined)).toEqual(out);
  });

  test('rows of positions and of areas are read back; what is none is told by its row', () => {
    const positions = [
      [5, 60],
      [5.001, -60.5, 12],
    ];
    expect(positionsIn(rowsOf(positions))).toEqual(positions);
    expect(positionsIn('5, 60\n\n5.1;60.2')).toEqual([
      [5, 60],
      [5.1, 60.2],
    ]);
    expect(() => positionsIn('5 60\nhere')).toThrow("row 2 must be a longitude and a latitude, not 'here'");
    const ring = (west: number) => [
      [west, 60],
      [west + 1, 60],
      [west, 61],
      [west, 60],
    ];
    const one = { type: 'Polygon' as const, coordinates: [ring(5), ring(5.1)] };
    const two = { type: 'MultiPolygon' as const, coordinates: [[ring(5), ring(5.1)], [ring(8)]] };
    for (const area of [one, two]) expect(areaIn(areaRows(area))).toEqual(area);
    expect(areaIn('  ')).toBeUndefined();
    expect(() => areaIn('5 60\n6 60')).toThrow('area must be of at least 3 corners, not 2');
  });
});
