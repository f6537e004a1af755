import { equalGroups, strayedTowards } from '../assess';
import type { Side } from '../model';
import { strictestMargin } from '../runs';
import { limitName } from './limitName';
import { type ReceiverFigures, receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';
import { sharedSide } from './sharedSide';
import { showList, showRange } from './showFigures';
import { type ShownPair, shownPairs } from './shownPairs';
import { stretchList } from './stretchList';

/**
 * What is sure, one sentence each, stretches joined: who strayed and to which side; who lies to a side within what is
 * allowed; who lay closer than whom; what is equivalent; who kept to the line. Empty where nothing is.
 */
export function sureFindings(model: ReportModel): string[] {
  const stretches = [...model.sections.map(({ name }) => name), null];
  const figures = model.receivers.map((receiver) =>
    stretches.map((stretch) => ({ ...receiverFigures(model, receiver, stretch), stretch })),
  );
  const pairs = shownPairs(model);
  return [
    ...figures.flatMap(strayedWords),
    ...figures.flatMap(sideWords),
    ...sharedWords(model, stretches),
    ...closerWords(pairs),
    ...differWords(model, pairs),
    ...equalWords(model, pairs, stretches),
    ...keptWords(figures),
  ];
}

type Told = ReceiverFigures & { readonly stretch: string | null };

const sides: readonly Side[] = ['left', 'right'];

function strayedWords(figures: readonly Told[]): string[] {
  const [{ receiver }] = figures;
  const strayed = figures.filter(({ judged }) => judged?.lineVerdict === 'strayed');
  const to = (side: Side | null) => strayed.filter(({ judged }) => judged!.strayedTo === side);
  const towards = (where: Side | 'both' | null) => to(null).filter(({ judged }) => strayedTowards(judged!) === where);
  const words = { left: ', left of the line,', right: ', right of the line,', both: ', to both sides,' };
  return [
    ...sides.flatMap((side) =>
      to(side).length === 0 ? [] : [`“${receiver.label}” strayed to the ${side} ${byStretch(to(side), 'bias')}.`],
    ),
    ...([...sides, 'both', null] as const).flatMap((where) => {
      const found = towards(where);
      if (found.length === 0) return [];
      return [`“${receiver.label}” strayed${where === null ? '' : words[where]} ${byStretch(found, 'meanAbsolute')}.`];
    }),
  ];
}

/** To which side, where it isn't sure that it strayed, or sure that it didn't. */
function sideWords(figures: readonly Told[]): string[] {
  const [{ receiver }] = figures;
  return sides.flatMap((side) =>
    (['kept', 'undecided'] as const).flatMap((verdict) => {
      const found = figures.filter(({ judged }) => judged?.sureSide === side && judged.lineVerdict === verdict);
      if (found.length === 0) return [];
      const within = limitName(found.map(({ judged }) => judged!)).replace(/,$/, '');
      const though = verdict === 'kept' ? `, though within ${within},` : '';
      return [`“${receiver.label}” lay ${side} of the line${though} ${byStretch(found, 'bias')}.`];
    }),
  );
}

/** Stretches on which all lie to the same side. */
function sharedWords(model: ReportModel, stretches: readonly (string | null)[]): string[] {
  const shared = stretches.filter((stretch) => sharedSide(model, stretch) !== null);
  if (shared.length === 0) return [];
  return [
    `All lay to the same side ${stretchList(shared)}: what all share can be the place, the wearer or the reference, not one receiver.`,
  ];
}

function closerWords(pairs: readonly ShownPair[]): string[] {
  const told = pairs.filter(({ closer }) => closer);
  const words = (pair: ShownPair) => {
    const than = pair.closer === pair.first ? pair.second : pair.first;
    return `“${pair.closer!.label}” lay closer than “${than.label}”`;
  };
  return [...new Set(told.map(words))].map((sentence) => {
    const found = told.filter((pair) => words(pair) === sentence);
    // over the whole route its size says it; by stretch the table of pairs has them all
    const whole = found.some(({ section }) => section === null);
    const by = (stretch: string | null) => {
      const { difference, interval95 } = found.find(({ section }) => section === stretch)!;
      return whole && stretch !== null ? '' : `by ${showRange(difference, interval95)}`;
    };
    return `${sentence} ${stretchList(
      found.map(({ section }) => section),
      by,
    )}.`;
  });
}

/** Where at least one of many differs, and no two were told apart. */
function differWords({ assessments, summary }: ReportModel, pairs: readonly ShownPair[]): string[] {
  const orders = summary ? summary.order : assessments.flatMap(({ order }) => order);
  const found = orders.filter(
    ({ section, overallPValue }) =>
      overallPValue !== null &&
      overallPValue <= 0.05 &&
      !pairs.some((pair) => pair.section === section && pair.verdict === 'closer'),
  );
  if (found.length === 0) return [];
  return [
    `At least one receiver differs ${stretchList(found.map(({ section }) => section))}; which one can’t be said.`,
  ];
}

function equalWords(
  { assessments, receivers }: ReportModel,
  pairs: readonly ShownPair[],
  stretches: readonly (string | null)[],
): string[] {
  const margin = strictestMargin(assessments);
  const found = stretches.flatMap((stretch) => {
    const equal = pairs.filter(({ section, verdict }) => section === stretch && verdict === 'equivalent');
    const named = equal.map(({ first, second }) => ({ first: first.label, second: second.label }));
    const names = receivers.map(({ label }) => label);
    return equalGroups(names, named).map((group) => ({ stretch, names: showList(group.map((name) => `“${name}”`)) }));
  });
  return [...new Set(found.map(({ names }) => names))].map((names) => {
    const where = found.flatMap((one) => (one.names === names ? [one.stretch] : []));
    return `${names} lay equally close, within ${margin}\u00A0m, ${stretchList(where)}.`;
  });
}

function keptWords(figures: readonly (readonly Told[])[]): string[] {
  const kept = figures.flatMap((mine) => {
    const found = mine.filter(({ judged }) => judged?.lineVerdict === 'kept');
    if (found.length === 0) return [];
    const every = found.length === mine.length && mine.length > 1;
    const where = every ? 'on every stretch' : stretchList(found.map(({ stretch }) => stretch));
    const within = limitName(found.map(({ judged }) => judged!));
    return [{ label: `“${mine[0].receiver.label}”`, where: `within ${within} ${where}` }];
  });
  return [...new Set(kept.map(({ where }) => where))].map((where) => {
    const names = kept.flatMap((one) => (one.where === where ? [one.label] : []));
    return `${showList(names)} kept, on average, ${where}.`;
  });
}

function byStretch(found: readonly Told[], figure: 'bias' | 'meanAbsolute'): string {
  return stretchList(
    found.map(({ stretch }) => stretch),
    (stretch) => {
      const judged = found.find((one) => one.stretch === stretch)!.judged!;
      const interval = figure === 'bias' ? judged.biasInterval95 : judged.interval95;
      return `by ${showRange(judged[figure], interval)}`;
    },
  );
}
