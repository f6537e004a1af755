import type { Assessment } from '../assess';
import { reportPictures, toPng } from '../report';
import type { CommandArguments } from './CommandArguments';
import { CommandError } from './CommandError';
import { sentenceOf } from './explain';
import type { TestPlan } from './TestPlan';

/** The pictures to publish that were asked for, by their files' names; none where none were. */
export async function pictureFiles(
  assessments: readonly Assessment[],
  { looks, surroundings }: Pick<TestPlan, 'looks' | 'surroundings'>,
  { pictures, theme = 'light', width }: CommandArguments,
): Promise<[name: string, content: string | Uint8Array][]> {
  if (pictures === undefined) return [];
  const drawn = reportPictures(assessments, { theme, looks, width, surroundings });
  if (pictures === 'svg') return drawn.map(({ name, svg }) => [`${name}.svg`, svg]);
  const files: [string, Uint8Array][] = [];
  try {
    for (const { name, svg } of drawn) files.push([`${name}.png`, await toPng(svg)]);
  } catch (error) {
    throw new CommandError(`--pictures png: ${sentenceOf(error)}; or take --pictures svg`, 1);
  }
  return files;
}
