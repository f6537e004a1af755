import { checkArray, checkMembers, checkNumber, checkPosition, checkString, type Drafted, InputError } from '../model';

/**
 * Refuses anything but what a line says it was drafted from.
 *
 * @throws {InputError} naming the member
 */
export function checkDrafted(value: unknown, argument: string): asserts value is Drafted {
  checkMembers<Drafted>(value, { recordings: 'must', tolerance: 'must', line: 'must' }, argument);
  const { recordings, tolerance, line } = value;
  checkArray(recordings, `${argument}.recordings`);
  recordings.forEach((hash: unknown, i: number) => {
    checkString(hash, `${argument}.recordings[${i}]`);
  });
  checkNumber(tolerance, `${argument}.tolerance`, { above: 0 });
  checkArray(line, `${argument}.line`);
  line.forEach((position: unknown, i: number) => {
    checkPosition(position, `${argument}.line`, i);
  });
  if (line.length < 2) {
    throw new InputError({
      reason: 'too-few',
      argument: `${argument}.line`,
      rule: 'a line of at least 2 positions',
      value: line.length,
    });
  }
}
