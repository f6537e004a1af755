/** Pieces that the schemas of this folder are built of. */
export type Schema = { readonly [key: string]: unknown };

export const text: Schema = { type: 'string' };
export const flag: Schema = { type: 'boolean' };
export const number: Schema = { type: 'number' };
export const count: Schema = { type: 'integer', minimum: 0 };
export const size: Schema = { type: 'number', minimum: 0 };
export const share: Schema = { type: 'number', minimum: 0, maximum: 1 };
export const side: Schema = { enum: ['left', 'right'] };
export const verdict: Schema = { enum: ['closer', 'equivalent', 'undecided'] };
export const position: Schema = { type: 'array', items: number, minItems: 2, maxItems: 3 };
export const interval: Schema = { type: 'array', items: number, minItems: 2, maxItems: 2 };
export const places: Schema = { type: 'array', items: { type: 'integer', minimum: 1 }, minItems: 2, maxItems: 2 };
export const or = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });
export const list = (items: Schema): Schema => ({ type: 'array', items });
/** An object that has exactly these keys; those in `optional` may be absent. */
export const object = (properties: Record<string, Schema>, ...optional: string[]): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties).filter((key) => !optional.includes(key)),
  additionalProperties: false,
});
export const ref = (name: string): Schema => ({ $ref: `#/$defs/${name}` });
