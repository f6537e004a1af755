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
export const or = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });
export const list = (items: Schema): Schema => ({ type: 'array', items });
/** An object that has exactly these keys; those in `optional` may be absent. */
export const object = (properties: Record<string, Schema>, ...optional: string[]): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties).filter((key) => !optional.includes(key)),
  additionalProperties: false,
});
/** A reason out of these, and the sentence that says it. */
export const stated = (...reasons: string[]): Schema => object({ reason: { enum: reasons }, message: text });
export const places: Schema = object({
  best: { type: 'integer', minimum: 1 },
  worst: { type: 'integer', minimum: 1 },
});
export const verdictLimits: Schema = list(
  stated(
    'nothing-in-common',
    'little-in-common',
    'too-short',
    'one-run',
    'includes-zero',
    'below-floor',
    'many-pairs',
    'off-the-route',
    'unbalanced',
  ),
);
export const ref = (name: string): Schema => ({ $ref: `#/$defs/${name}` });
