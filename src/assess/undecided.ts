import type { VerdictLimit } from './Assessment';

/** The verdict where nothing is shown, and why. */
export function undecided(reason: VerdictLimit['reason'], message: string) {
  return { verdict: 'undecided' as const, limits: [{ reason, message }] };
}
