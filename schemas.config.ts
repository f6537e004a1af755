import { mkdirSync, writeFileSync } from 'node:fs';
import { createGenerator, type Schema } from 'ts-json-schema-generator';

/** Every document that is read or written, by the file of its schema: the interface that says what it holds, and where. */
const documents = {
  assessment: ['Assessment', 'src/assess/Assessment.ts'],
  recipe: ['RouteRecipe', 'src/model/RouteRecipe.ts'],
  runFigures: ['AssessedFigures', 'src/runs/AssessedFigures.ts'],
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
    writeFileSync(`${folder}/${name}.json`, `${JSON.stringify(documentSchema(name), null, 1)}\n`);
  }
}
