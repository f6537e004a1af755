import { checkString } from '../model';
import type { SurroundingOptions } from './SurroundingOptions';

/** Who the surroundings are of, to be printed beside them: in words, or the warning that nobody says. */
export interface SurroundingCredit {
  readonly words: string;
  readonly stated: 'yes' | 'no';
}

/** What is to be printed with what is drawn; undefined where nothing is. */
export function surroundingCredit({ surroundings, credit }: SurroundingOptions): SurroundingCredit | undefined {
  if (credit !== undefined) checkString(credit, 'options.credit', { min: 1 });
  if (surroundings === undefined) return undefined;
  const said: unknown = credit ?? (surroundings as { licence?: unknown } | null)?.licence;
  if (typeof said === 'string' && said.trim() !== '') return { words: `Surroundings: ${said}`, stated: 'yes' };
  return { words: 'The surroundings state no licence and no source:', stated: 'no' };
}
