import { callCase } from './callCase';
import { Dice } from './Dice';
import { documentCase } from './documentCase';
import { invariantCase } from './invariantCase';

/** What one case was about, and what was wrong with it, if anything. */
export interface CaseOutcome {
  readonly kind: 'document' | 'call' | 'invariant';
  /** The function called, or the law held. */
  readonly name: string;
  readonly fault?: string;
}

/** The case of that number of a seed: the same in every run. `begun` is told which function it calls, before it does. */
export async function runCase(seed: number, index: number, begun?: (name: string) => void): Promise<CaseOutcome> {
  const dice = new Dice(seed, index);
  const roll = dice.roll();
  if (roll < 0.55) {
    try {
      return { kind: 'document', name: 'read', fault: await documentCase(dice) };
    } catch (error) {
      return { kind: 'document', name: 'read', fault: (error as Error).stack?.split('\n').slice(0, 4).join(' | ') };
    }
  }
  if (roll < 0.9) return { kind: 'call', ...(await callCase(dice, begun)) };
  return { kind: 'invariant', ...invariantCase(dice) };
}
