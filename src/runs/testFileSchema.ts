const text = { type: 'string', minLength: 1 } as const;
const notes = { type: 'string', description: 'Anything worth keeping; not read' } as const;

const exclusions = {
  type: 'array',
  items: {
    type: 'object',
    required: ['from', 'to', 'reason'],
    additionalProperties: false,
    properties: {
      from: { type: 'number', minimum: 0, description: 'Metres along the route' },
      to: { type: 'number', minimum: 0, description: 'Metres along the route' },
      reason: text,
    },
  },
} as const;

/**
 * JSON Schema (2020-12) of a {@link TestFile}; the package ships it as `datumline/schemas/testFile.json`.
 *
 * @example
 * testFileSchema.required // → ['version', 'route', 'runs']
 */
export const testFileSchema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'A test of receivers along a route',
  type: 'object',
  required: ['version', 'route', 'runs'],
  additionalProperties: false,
  properties: {
    $schema: { type: 'string' },
    version: { const: 1 },
    name: text,
    route: { ...text, description: 'File with a recipe, a GeoJSON FeatureCollection, or one GPX or KML line' },
    runs: {
      type: 'array',
      minItems: 1,
      items: {
        type: 'object',
        required: ['name', 'recordings'],
        additionalProperties: false,
        properties: {
          name: text,
          recordings: {
            type: 'array',
            minItems: 1,
            items: {
              type: 'object',
              required: ['file', 'receiver'],
              additionalProperties: false,
              properties: {
                file: text,
                receiver: { ...text, description: 'The same word in every run' },
                placement: { ...text, description: 'Where it was carried: left wrist, handlebar' },
                track: { ...text, description: 'Name of the track, where the file has several' },
                zone: { ...text, description: 'Zone of times that state none: Z, +02:00' },
                notes,
              },
            },
          },
          exclusions: { ...exclusions, description: 'Left out of this run only: a detour really travelled' },
          notes,
        },
      },
    },
    decoy: { ...text, description: 'File with the line that receivers may be drawn to' },
    centreline: { ...text, description: 'File with the centreline of the street' },
    exclusions: { ...exclusions, description: 'Left out of every run' },
    options: {
      type: 'object',
      additionalProperties: false,
      properties: {
        leverArm: { type: 'number', minimum: 0, description: 'Metres between receiver and reference' },
        equivalence: {
          type: 'number',
          exclusiveMinimum: 0,
          description: 'Metres within which two count as equivalent',
        },
      },
    },
    notes,
  },
} as const;
