import { expect, test } from 'vitest';
import { LowerEnvelope } from '../../src/metrics/LowerEnvelope';
import { seeded } from '../support/randomLine';

const valueAt = ({ count, froms, bends, feet, rests }: LowerEnvelope, x: number) => {
  let k = 0;
  while (k + 1 < count && froms[k + 1] <= x) k++;
  return bends[k] * (x - feet[k]) ** 2 + rests[k];
};

test('is the least of all functions, by trying each', () => {
  const random = seeded(17);
  const envelope = new LowerEnvelope();
  for (let round = 0; round < 300; round++) {
    const pieces = Array.from({ length: 12 }, () => {
      const [a, b] = [random() * 12 - 1, random() * 12 - 1];
      const bend = random() < 0.2 ? 0 : random() < 0.4 ? 1 : random();
      return { from: Math.min(a, b), to: Math.max(a, b), bend, foot: random() * 14 - 2, rest: random() * 9 };
    });
    envelope.begin(0, 10, 20);
    for (const { from, to, bend, foot, rest } of pieces) envelope.lower(from, to, bend, foot, rest);
    expect([envelope.froms[0], envelope.froms[envelope.count]]).toEqual([0, 10]);
    for (let x = 0.005; x < 10; x += 0.02) {
      const least = pieces
        .filter(({ from, to }) => from < x && x < to)
        .reduce((best, { bend, foot, rest }) => Math.min(best, bend * (x - foot) ** 2 + rest), 20);
      expect(Math.abs(valueAt(envelope, x) - least)).toBeLessThan(1e-9);
    }
  }
});

test('pieces that but touch stay apart (2026-11: the corner of two edges won the whole of one)', () => {
  const envelope = new LowerEnvelope();
  envelope.begin(0, 7, 1e6);
  envelope.lower(0, 4.288869782420311, 0.0018911947509754263, 63.74672772033331, 0);
  envelope.lower(4.288869782420311, 7, 1, 4.4013161712567355, 6.673177222705051);
  envelope.lower(0, 4.667327321341235, 1, 4.4013161712567355, 6.673177222705051);
  expect(Math.abs(valueAt(envelope, 0) - 0.0018911947509754263 * 63.74672772033331 ** 2)).toBeLessThan(1e-9);
});
