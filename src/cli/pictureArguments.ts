import type { CommandArguments } from './CommandArguments';
import { wrongUsage } from './CommandError';
import type { helpTexts } from './helpTexts';

/** `--pictures`, `--theme` and `--width`; the last two say nothing without the first. */
export function pictureArguments(
  { pictures, theme, width }: Readonly<Record<string, unknown>>,
  command: Exclude<keyof typeof helpTexts, ''>,
): Pick<CommandArguments, 'pictures' | 'theme' | 'width'> {
  const one = <Word extends string>(value: unknown, option: string, words: readonly Word[]): Word | undefined => {
    if (value === undefined || words.includes(value as Word)) return value as Word | undefined;
    throw wrongUsage(`${option} must be ${words.join(' or ')}, not "${value}"`, command);
  };
  if (pictures === undefined && (theme !== undefined || width !== undefined)) {
    throw wrongUsage(
      `--${theme === undefined ? 'width' : 'theme'} is for pictures: it needs --pictures svg or png`,
      command,
    );
  }
  const pixels = width === undefined ? undefined : Number(width);
  if (pixels !== undefined && !(Number.isInteger(pixels) && pixels >= 240 && pixels <= 10_000)) {
    throw wrongUsage(`--width must be a whole number of 240 to 10000, not "${width}"`, command);
  }
  return {
    pictures: one(pictures, '--pictures', ['svg', 'png']),
    theme: one(theme, '--theme', ['light', 'dark']),
    width: pixels,
  };
}
