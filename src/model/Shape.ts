/** What a value read from JSON must be, a schema in short: a name that begins with # stands for the shape of that name. */
export type Shape =
  | 'string'
  | 'boolean'
  | 'null'
  | `#${string}`
  /** A finite number, within bounds. */
  | { readonly min?: number; readonly max?: number; readonly above?: number }
  | { readonly oneOf: readonly (string | number | boolean | null)[] }
  | { readonly any: readonly Shape[] }
  | { readonly items: Shape; readonly least?: number; readonly most?: number }
  /** Members that must be there, and those that may. */
  | { readonly must: { readonly [key: string]: Shape }; readonly may?: { readonly [key: string]: Shape } };

/** Shapes by their names. */
export interface Shapes {
  readonly [name: string]: Shape;
}
