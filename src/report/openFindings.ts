import { limitName } from './limitName';
import { receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';
import { showList } from './showFigures';
import { shownPairs } from './shownPairs';
import { stretchList } from './stretchList';

/** What stays undecided: who lay closer, and who may have strayed, stretches joined. Empty where nothing does. */
export function openFindings(model: ReportModel): string[] {
  return [...openPairWords(model), ...openLineWords(model)];
}

/** Stretches that are named one by one, even where they are all there are. */
const NAMED = 4;

function where({ sections }: ReportModel, stretches: readonly (string | null)[]): string {
  const named = stretches.filter((stretch) => stretch !== null);
  if (named.length <= NAMED || named.length < sections.length) return stretchList(stretches);
  return named.length < stretches.length ? 'on every stretch and over the whole route' : 'on every stretch';
}

function openPairWords(model: ReportModel): string[] {
  const pairs = shownPairs(model);
  const stretches = [...new Set(pairs.map(({ section }) => section))].map((section) => {
    const all = pairs.filter((pair) => pair.section === section);
    return { section, open: all.filter(({ verdict }) => verdict === 'undecided').length, of: all.length };
  });
  const none = stretches.filter(({ open, of }) => open === of);
  const some = stretches.filter(({ open, of }) => open > 0 && open < of);
  const count = (stretch: string | null) => {
    const { open, of } = some.find(({ section }) => section === stretch)!;
    return `${open} of ${of}`;
  };
  const named = (found: typeof stretches) => found.map(({ section }) => section);
  return [
    ...(none.length > 0 ? [`Which lay closer, for every pair ${where(model, named(none))}.`] : []),
    ...(some.length > 0 ? [`Which lay closer, for some pairs ${stretchList(named(some), count)}.`] : []),
  ];
}

function openLineWords(model: ReportModel): string[] {
  const open = model.receivers.flatMap((receiver) => {
    const found = [...model.sections.map(({ name }) => name), null].flatMap((stretch) => {
      const { judged } = receiverFigures(model, receiver, stretch);
      return judged?.lineVerdict === 'undecided' ? [{ stretch, judged }] : [];
    });
    if (found.length === 0) return [];
    const beyond = limitName(found.map(({ judged }) => judged));
    const stretches = found.map(({ stretch }) => stretch);
    return [{ label: `“${receiver.label}”`, where: `beyond ${beyond} ${where(model, stretches)}` }];
  });
  return [...new Set(open.map(({ where }) => where))].map((where) => {
    const names = open.flatMap((one) => (one.where === where ? [one.label] : []));
    return `Whether ${showList(names)} strayed ${where}.`;
  });
}
