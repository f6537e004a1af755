import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { createGenerator, type Schema } from 'ts-json-schema-generator';
import type { Shape, Shapes } from './src/model';

/** Every document that is read or written, by the file of its schema: the interface that says what it holds, and where. */
const documents = {
  assessment: ['Assessment', 'src/assess/Assessment.ts'],
  recipe: ['RouteRecipe', 'src/model/RouteRecipe.ts'],
  runFigures: ['AssessedFigures', 'src/runs/AssessedFigures.ts'],
  takenFigures: ['TakenFigures', 'src/runs/TakenFigures.ts'],
  testFile: ['TestFile', 'src/runs/TestFile.ts'],
  timedAssessment: ['TimedAssessment', 'src/truth/TimedAssessment.ts'],
  testSummary: ['TestSummary', 'src/runs/TestSummary.ts'],
} as const;

type DocumentName = keyof typeof documents;

const rings: Schema = {
  type: 'array',
  minItems: 1,
  items: { type: 'array', minItems: 4, items: { $ref: '#/definitions/Position' } },
};
// RFC 7946, section 6.1: an object may have members that are foreign to GeoJSON.
const geometry = (type: string, coordinates: Schema): Schema => ({
  type: 'object',
  required: ['type', 'coordinates'],
  properties: { type: { const: type }, coordinates },
});

/** What the types of GeoJSON leave unsaid (RFC 7946, sections 3.1.1, 3.1.6 and 3.1.7). */
const geoJson: Record<string, Schema> = {
  Position: {
    type: 'array',
    items: { type: 'number' },
    minItems: 2,
    description: '[longitude, latitude, height?], WGS 84, degrees',
  },
  Polygon: geometry('Polygon', rings),
  MultiPolygon: geometry('MultiPolygon', { type: 'array', items: rings }),
};

/** The JSON Schema (draft 7) of a document, made of its interface: docstrings become descriptions, their tags the bounds. */
export function documentSchema(name: DocumentName): Schema {
  const [type, path] = documents[name];
  const generator = createGenerator({
    type,
    path,
    tsconfig: 'tsconfig.json',
    skipTypeCheck: true,
    topRef: false,
    sortProps: false,
  });
  const { definitions, ...schema } = generator.createSchema(type);
  const { BBox: _, ...named } = definitions as Record<string, Schema>;
  for (const key of Object.keys(geoJson)) if (key in named) named[key] = geoJson[key];
  return JSON.parse(JSON.stringify({ ...schema, definitions: named }), (key, value) =>
    key === 'description' && typeof value === 'string' ? plainText(value) : value,
  );
}

/** Links as the words they show, paragraphs and list items on one line each. */
function plainText(docstring: string): string {
  return docstring
    .replace(/\s*\{@link\s+(\w+)\s*\}\s?/g, ' $1')
    .replace(/\s*\n\s*(?=\n|- )/g, '\n')
    .replace(/(?<!\n)\n(?![\n-])/g, ' ');
}

/** Writes the schemas into a folder, for editors and other languages. */
export function writeSchemas(folder: string): void {
  mkdirSync(folder, { recursive: true });
  for (const name of Object.keys(documents) as DocumentName[]) {
    // nobody is given these: combine puts figures into this form
    if (name === 'takenFigures') continue;
    writeFileSync(`${folder}/${name}.json`, `${JSON.stringify(documentSchema(name))}\n`);
  }
}

/** The schema of a document as shapes by name, its own under `''`: what `src` checks it by. */
export function documentShapes(name: DocumentName): Shapes {
  const { definitions, ...schema } = documentSchema(name);
  const named = Object.entries({ '': schema, ...definitions } as Record<string, Schema>);
  return Object.fromEntries(named.map(([key, one]) => [key, shapeOf(one)]));
}

function shapeOf(schema: Schema): Shape {
  const { $ref, anyOf, type, const: one, enum: words, properties = {}, required = [] } = schema;
  if ($ref !== undefined) return `#${$ref.slice('#/definitions/'.length)}`;
  if (anyOf !== undefined) return { any: (anyOf as Schema[]).map(shapeOf) };
  if (Array.isArray(type)) return { any: type.map((single) => shapeOf({ ...schema, type: single })) };
  if (words !== undefined) return { oneOf: words as string[] };
  if (one !== undefined) return { oneOf: [one as string] };
  if (type === 'string' || type === 'boolean' || type === 'null') return type;
  if (type === 'number' || type === 'integer') {
    const { minimum: min, maximum: max, exclusiveMinimum: above } = schema;
    return defined({ min, max, above: above as number | undefined });
  }
  if (type === 'array') {
    const { items, minItems: least, maxItems: most } = schema;
    // the places of a tuple are of one kind here
    return defined({ items: shapeOf((Array.isArray(items) ? items[0] : items) as Schema), least, most });
  }
  const members = Object.entries(properties).map(([key, of]) => [key, shapeOf(of as Schema)] as const);
  const must = Object.fromEntries(members.filter(([key]) => required.includes(key)));
  const may = Object.fromEntries(members.filter(([key]) => !required.includes(key)));
  return defined({ must, may: Object.keys(may).length > 0 ? may : undefined });
}

function defined<T extends object>(members: T): T {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as T;
}

// npx tsx schemas.config.ts: after a change of the interface of an assessment
if (process.argv[1]?.endsWith('schemas.config.ts')) {
  const kept = [
    ['assessment', 'src/assess/assessmentShapes.ts', 'What an assessment must be'],
    [
      'takenFigures',
      'src/runs/takenFiguresShapes.ts',
      'What is read of an assessment, or of figures of a run, must be',
    ],
    ['timedAssessment', 'src/truth/timedAssessmentShapes.ts', 'What an assessment by the clock must be'],
  ] as const;
  for (const [name, file, what] of kept) {
    writeFileSync(
      file,
      `import type { Shapes } from '../model';

/** ${what}: made of its interface by schemas.config.ts, and held to it by a test. */
export const ${name}Shapes: Shapes = ${JSON.stringify(documentShapes(name))};
`,
    );
  }
  execFileSync('npx', ['biome', 'check', '--write', ...kept.map(([, file]) => file)], { stdio: 'inherit' });
}
