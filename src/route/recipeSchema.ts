const metres = { type: 'number', exclusiveMinimum: 0 };
const side = { enum: ['left', 'right'] };
const position = {
  type: 'array',
  minItems: 2,
  items: { type: 'number' },
  description: '[longitude, latitude, height?], WGS 84, degrees',
};
const steps = { type: 'array', items: { $ref: '#/$defs/step' } };
const recipe = { $ref: '#' };

/** What each call takes: its members, and which of them it needs. */
const calls: Record<string, { needs: readonly string[]; members: Record<string, object> }> = {
  start: { needs: ['position'], members: { position, azimuth: { type: 'number' } } },
  lineTo: { needs: ['position'], members: { position } },
  lineBy: { needs: ['azimuth', 'distance'], members: { azimuth: { type: 'number' }, distance: metres } },
  arc: { needs: ['turn', 'radius', 'sweep'], members: { turn: side, radius: metres, sweep: metres } },
  follow: {
    needs: ['line'],
    members: {
      line: { type: 'array', minItems: 2, items: position },
      side,
      metres: { type: 'number', minimum: 0 },
      from: { type: 'number', minimum: 0 },
      to: { type: 'number', minimum: 0 },
      reverse: { type: 'boolean' },
    },
  },
  moveOver: { needs: ['side', 'metres', 'over'], members: { side, metres, over: metres } },
  uTurn: { needs: ['side', 'width'], members: { side, width: metres } },
  section: {
    needs: ['name'],
    members: {
      name: { type: 'string', minLength: 1 },
      halfWidth: metres,
      environment: { type: 'string' },
      from: { type: 'number', minimum: 0 },
      to: { type: 'number', minimum: 0 },
      inside: {
        type: 'object',
        required: ['type', 'coordinates'],
        properties: { type: { enum: ['Polygon', 'MultiPolygon'] }, coordinates: { type: 'array' } },
      },
    },
  },
  endSection: { needs: [], members: {} },
  mark: {
    needs: ['name'],
    members: { name: { type: 'string', minLength: 1 }, time: { type: 'number' }, near: position },
  },
  laps: { needs: ['count', 'steps'], members: { count: { type: 'integer', minimum: 1 }, steps } },
  outAndBack: {
    needs: ['steps'],
    members: {
      steps,
      returnBeside: {
        type: 'object',
        required: ['side', 'metres'],
        properties: { side, metres },
        additionalProperties: false,
      },
    },
  },
  provenance: {
    needs: [],
    members: {
      lateral95: { type: 'number', minimum: 0 },
      source: { type: 'string' },
      date: { type: 'string' },
      licence: { type: 'string' },
      frame: { type: 'string' },
      epoch: { type: 'number' },
    },
  },
  offset: {
    needs: ['recipe', 'side', 'metres'],
    members: { recipe, side, metres, join: { enum: ['round', 'mitre', 'bevel'] } },
  },
  slice: {
    needs: ['recipe', 'from', 'to'],
    members: { recipe, from: { type: 'number', minimum: 0 }, to: metres },
  },
  reverse: { needs: ['recipe'], members: { recipe } },
  join: {
    needs: ['recipes'],
    members: { recipes: { type: 'array', minItems: 2, maxItems: 2, items: recipe }, gap: { enum: ['line', 'refuse'] } },
  },
};

/** JSON Schema (draft 2020-12) of a route's recipe. */
export const recipeSchema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Route recipe',
  description: 'How a reference line was authored: the calls of its builder in order.',
  type: 'object',
  required: ['version', 'options', 'steps'],
  properties: {
    version: { const: 1 },
    options: {
      type: 'object',
      properties: {
        name: { type: 'string' },
        maxSpacing: metres,
        maxSagitta: metres,
        cornerRadius: { type: 'number', minimum: 0 },
        lateral95: { type: 'number', minimum: 0 },
        halfWidth: metres,
      },
      additionalProperties: false,
    },
    steps: { type: 'array', minItems: 1, items: { $ref: '#/$defs/step' } },
  },
  additionalProperties: false,
  $defs: {
    step: {
      type: 'object',
      required: ['call'],
      properties: { call: { enum: Object.keys(calls) } },
      // One condition a call, so that a fault is told of the call it is in.
      allOf: Object.entries(calls).map(([call, { needs, members }]) => ({
        if: { properties: { call: { const: call } }, required: ['call'] },
        // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
        then: { required: needs, properties: { call: true, ...members }, additionalProperties: false },
      })),
    },
  },
};
