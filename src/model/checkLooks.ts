import { checkChoice } from './checkChoice';
import { checkOptions } from './checkOptions';
import { InputError } from './InputError';
import type { LineDash, ReceiverLook, ReceiverLooks } from './ReceiverLook';

const dashes: readonly LineDash[] = [
  'solid',
  'dashed',
  'dotted',
  'dash-dotted',
  'long-dashed',
  'dash-dot-dotted',
  'fine-dotted',
];

/**
 * Refuses what are no looks of receivers: a colour goes into the page's markup, so that it can be nothing but a colour.
 *
 * @throws {InputError} `wrong-type`, `unknown-key`, `out-of-range`
 */
export function checkLooks(looks: unknown, argument: string): asserts looks is ReceiverLooks {
  if (typeof looks !== 'object' || looks === null || Array.isArray(looks)) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an object of looks by receiver', value: looks });
  }
  for (const [name, look] of Object.entries(looks) as [string, ReceiverLook][]) {
    const of = `${argument}[${JSON.stringify(name)}]`;
    if (look === undefined)
      throw new InputError({ reason: 'wrong-type', argument: of, rule: 'an object', value: look });
    checkOptions<ReceiverLook>(look, { colour: true, dash: true }, of);
    const { colour, dash } = look;
    if (colour !== undefined && !(typeof colour === 'string' && /^#[\da-f]{6}$/i.test(colour))) {
      const rule = 'a colour as #rrggbb';
      throw new InputError({ reason: 'out-of-range', argument: `${of}.colour`, rule, value: colour });
    }
    if (dash !== undefined) checkChoice(dash, `${of}.dash`, dashes);
  }
}
