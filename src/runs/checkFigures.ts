import { areObjects } from '../assess';
import { InputError } from '../model';
import type { AssessedFigures } from './AssessedFigures';

/**
 * Refuses what has not what is read of an assessment: the whole schema would take longer than the work itself.
 *
 * @throws {InputError} `wrong-type`
 */
export function checkFigures(value: unknown, argument: string): asserts value is AssessedFigures {
  const { schema, route, recordings, rows, pairs, method, warnings } = (value ?? {}) as Partial<AssessedFigures>;
  const lists = [route?.sections, recordings, rows, pairs, method?.inputs, warnings];
  if (
    typeof value === 'object' &&
    schema === 1 &&
    areObjects(lists) &&
    areLists([method?.sentences, method?.cautions, route?.line?.lon, route?.line?.lat]) &&
    typeof route!.length === 'number' &&
    typeof method!.hash === 'string' &&
    typeof method!.inputs[0]?.hash === 'string' &&
    typeof method!.options?.leverArm === 'number' &&
    typeof method!.options.equivalence === 'number'
  ) {
    return;
  }
  throw new InputError({ reason: 'wrong-type', argument, rule: 'what assess or runFigures returned', value });
}

function areLists(lists: readonly unknown[]): boolean {
  return lists.every(Array.isArray);
}
