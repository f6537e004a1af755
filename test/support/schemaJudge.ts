import { type Schema, Validator } from '@cfworker/json-schema';
import { documentSchema } from '../../schemas.config';

/** What a document's schema has against a value, as JSON holds it: one line a fault, with its place; none where it fits. */
export function schemaJudge(name: Parameters<typeof documentSchema>[0]): (document: unknown) => string[] {
  const validator = new Validator(documentSchema(name) as Schema, '7', false);
  return (document) =>
    validator
      .validate(JSON.parse(JSON.stringify(document)))
      .errors.map(({ instanceLocation, error }) => `${instanceLocation} ${error}`);
}
