import { cautions } from '../assess';
import type { Steps } from '../model';
import { answerPart } from './answerPart';
import { captioned } from './captioned';
import { cornerPart } from './cornerPart';
import { decoyPart } from './decoyPart';
import { doubtPart } from './doubtPart';
import { drawRibbon, ribbonExaggeration } from './drawRibbon';
import { drawStrip } from './drawStrip';
import { type Content, element, fragment } from './element';
import { embeddedSvg } from './embeddedSvg';
import { Folded } from './Folded';
import { figuresPart } from './figuresPart';
import { groundPart } from './groundPart';
import { groundShapes } from './groundShapes';
import { lengthPart } from './lengthPart';
import { listItem } from './listItem';
import { methodPart } from './methodPart';
import type { Picture } from './Picture';
import { pacePart } from './pacePart';
import { pairPart } from './pairPart';
import { planFigure } from './planFigure';
import { planLines } from './planLines';
import { receiverName } from './receiverName';
import { recordingPart } from './recordingPart';
import { repeatPart } from './repeatPart';
import type { Receiver, ReportModel } from './reportModel';
import { type RoutePlane, routePlane } from './routePlane';
import { ScrollRegion } from './ScrollRegion';
import type { SurroundingOptions } from './SurroundingOptions';
import { shownPlaces } from './shownPlaces';
import { sidePart } from './sidePart';
import { stretchPart } from './stretchPart';
import { receiverRows } from './stripRows';
import { timedPart } from './timedPart';
import type { TimedStrand } from './timedStrands';
import type { WalkData } from './walkData';
import { wherePart } from './wherePart';
import { wornPart } from './wornPart';

/** A part of the report. */
export interface ReportPart {
  readonly id: string;
  readonly heading: string;
  readonly content: Content;
}

/** The parts in the order of reading, a step each, without those on which the assessment has nothing to say. */
export function* reportParts(
  model: ReportModel,
  walk: WalkData,
  timed: readonly TimedStrand[] = [],
  around: SurroundingOptions = {},
): Steps<ReportPart[]> {
  const plane = routePlane(model.route.line);
  const lines = planLines(model, plane, groundShapes(model.route, plane, around.surroundings));
  yield;
  const embed = (picture: Picture) => embeddedSvg(picture, { 'data-walk': walk.add(picture) });
  function* findings(): Steps<Content> {
    const plan = planFigure(model, plane, lines, embed);
    yield;
    return answerPart(model, plan);
  }
  function* along(): Steps<Content> {
    const strips = alongPart(model, embed);
    yield;
    return [strips, yield* ribbonPart(model, plane, embed)];
  }
  // Pictures get their numbers in this order.
  const parts: readonly (readonly [id: string, heading: string, draw: () => Content | Steps<Content>])[] = [
    ['findings', 'What was found', findings],
    ['figures', 'How far off, and is it sure?', () => figuresPart(model)],
    ['where', 'Where did they stray?', () => wherePart(model, plane, lines)],
    ['ground', 'On the roadway, through a house?', () => groundPart(model, plane, lines)],
    ['along', 'To which side?', along],
    ['stretches', 'Stretch by stretch', () => stretchPart(model, embed)],
    ['turns', 'Were turns cut?', () => cornerPart(model)],
    ['pace', 'Ahead or behind?', () => pacePart(model)],
    [
      'clock',
      'By the clock: how far from where it was at that second',
      () => timedPart(timed, model.summary?.byTime ?? null, embed),
    ],
    ['side', 'On which side of the centreline?', () => sidePart(model)],
    ['decoy', 'Drawn to the other line?', () => decoyPart(model)],
    ['pairs', 'Do they really differ?', () => pairPart(model)],
    ['worn', 'Receiver, or place worn?', () => wornPart(model)],
    ['repeat', 'The same again?', () => repeatPart(model)],
    ['lengths', 'Why total length misleads', () => lengthPart(model)],
    ['recordings', 'What was recorded', () => recordingPart(model)],
    ['doubt', 'Can the reference be trusted?', () => doubtPart(model)],
    ['method', 'How it was done', () => methodPart(model)],
    // the first stands above the findings
    ['cautions', 'Cautions', () => <ul>{cautions.slice(1).map(listItem)}</ul>],
  ];
  const drawn: ReportPart[] = [];
  for (const [i, [id, heading, draw]] of parts.entries()) {
    const begun = draw();
    const content = isSteps(begun) ? yield* begun : begun;
    if (content !== null) drawn.push({ id, heading, content });
    yield { done: i + 1, of: parts.length, what: 'parts' };
  }
  return drawn;
}

function isSteps(begun: Content | Steps<Content>): begun is Steps<Content> {
  return typeof begun === 'object' && begun !== null && 'next' in begun;
}

/** Left and right of the line along the whole route. */
function alongPart(model: ReportModel, embed: (picture: Picture) => Content): Content {
  const strips = drawStrip(model, {
    width: 1080,
    title: 'Left and right of the line, along the whole route',
    rows: receiverRows(model, 0, model.route.length),
    rowHeight: 120,
    places: shownPlaces(model),
    sections: 'named',
    count: 'from start',
    key: 'none',
  });
  return (
    <>
      <ScrollRegion label="Left and right of the line" holds="picture">
        {embed(strips)}
      </ScrollRegion>
      <p class="note">
        As the traveller sees it: left of the line is above, right below. The wide band is the corridor, the narrow one
        the uncertainty of the reference: within it no side is sure. A broken line is a gap.
      </p>
    </>
  );
}

/** Each receiver's offsets on a map of its own, a rest after each. */
function* ribbonPart(model: ReportModel, plane: RoutePlane, embed: (picture: Picture) => Content): Steps<Content> {
  const exaggeration = ribbonExaggeration(model, plane);
  const ribbons: Content[] = [];
  const ribbon = (receiver: Receiver) =>
    drawRibbon(model, plane, {
      width: 420,
      title: `${receiver.label}, offsets drawn ${exaggeration} times too wide`,
      receivers: [receiver],
      exaggeration,
      key: 'none',
    });
  for (const receiver of model.receivers) {
    yield;
    ribbons.push(captioned(embed(ribbon(receiver)), receiverName(receiver)));
  }
  return (
    <Folded summary={`On the map, drawn ${exaggeration} times too wide`} on="screen">
      <div class="ribbons">{ribbons}</div>
    </Folded>
  );
}
