import { equalGroups } from '../assess';
import { strictestMargin } from '../runs';
import { foundWords } from './foundWords';
import type { ReportModel } from './reportModel';
import { sharedSide } from './sharedSide';
import { showCount, showList } from './showFigures';
import { type ShownPair, shownPairs } from './shownPairs';

/**
 * What is shown of the receivers on a section among themselves, and what is not: who lay closer than whom, who lay equally
 * close, how many pairs stay undecided and what would decide them. Of each run by itself where no summary speaks for all.
 */
export function sectionFindings(model: ReportModel, section: string): string[] {
  const pairs = shownPairs(model, section);
  const titles = [...new Set(pairs.map(({ title }) => title))];
  const compared = titles.map((title) => {
    const own = pairs.filter((pair) => pair.title === title);
    return `${title === null ? '' : `${title}: `}${pairWords(model, own)}`;
  });
  return [...compared, ...sharedWords(model, section)];
}

function pairWords({ assessments, receivers }: ReportModel, pairs: readonly ShownPair[]): string {
  const closer = receivers.flatMap((receiver) => {
    const than = pairs.flatMap((pair) =>
      pair.closer === receiver ? `“${(pair.first === receiver ? pair.second : pair.first).label}”` : [],
    );
    return than.length === 0 ? [] : [`“${receiver.label}” lay closer than ${showList(than)}.`];
  });
  const alike = pairs
    .filter(({ verdict }) => verdict === 'equivalent')
    .map(({ first, second }) => ({ first: first.label, second: second.label }));
  const names = receivers.map(({ label }) => label);
  const equal = equalGroups(names, alike).map(
    (group) =>
      `Equivalent within ${strictestMargin(assessments)}\u00A0m: ${showList(group.map((name) => `“${name}”`))}.`,
  );
  const open = pairs.filter(({ verdict }) => verdict === 'undecided');
  const many = showCount(pairs.length, 'pair');
  const counted = open.length === pairs.length ? many : `${open.length} of ${many}`;
  const deciding = foundWords(open);
  const undecided = open.length === 0 ? [] : [`Undecided: ${[counted, ...deciding].join('; ')}.`];
  return [...closer, ...equal, ...undecided].join(' ');
}

/** That all lie to one side, which tells of none of them. */
function sharedWords(model: ReportModel, section: string): string[] {
  const side = sharedSide(model, section);
  if (side === null) return [];
  return [
    `All lie ${side} of the line: what all share can be the place, the wearer or the reference, not one receiver.`,
  ];
}
