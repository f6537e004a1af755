import { checkOptions, InputError } from '../model';
import { combine, type TestSummary } from '../runs';
import { answerPart } from './answerPart';
import { cautions } from './cautions';
import { cornerPart } from './cornerPart';
import { decoyPart } from './decoyPart';
import { doubtPart } from './doubtPart';
import { drawRibbon, ribbonExaggeration } from './drawRibbon';
import { drawStrip } from './drawStrip';
import { type Content, element, fragment } from './element';
import { embeddedSvg } from './embeddedSvg';
import { figuresPart } from './figuresPart';
import { lengthPart } from './lengthPart';
import { Markup } from './Markup';
import { methodPart } from './methodPart';
import type { Picture } from './Picture';
import { pageScript } from './pageScript';
import { pageStyle } from './pageStyle';
import { pairPart } from './pairPart';
import { receiverName } from './receiverName';
import { recordingPart } from './recordingPart';
import { repeatPart } from './repeatPart';
import { type Assessments, type ReportModel, reportModel } from './reportModel';
import { routePlane } from './routePlane';
import { runKey } from './runKey';
import { ScrollRegion } from './ScrollRegion';
import { showAlong } from './showFigures';
import { shownPlaces } from './shownPlaces';
import { sidePart } from './sidePart';
import { stretchPart } from './stretchPart';
import { receiverRows } from './stripRows';
import { WalkData } from './walkData';
import { wherePart } from './wherePart';
import { wornPart } from './wornPart';

/** Options of {@link reportHtml}. */
export interface ReportHtmlOptions {
  /** Heading of the report. @defaultValue the route's name */
  readonly title?: string;
  /** What several runs say together. @defaultValue what `combine` finds, where the recordings come from more than one run */
  readonly summary?: TestSummary;
}

/**
 * A report as one HTML file that opens from disk and asks for nothing from outside: findings in words first, what is not
 * shown said so; figures by stretch and receiver with their intervals and ties; the route from above with the worst places
 * numbered, left and right along the route, offsets drawn too wide, each stretch by itself, turns, pairs, lengths, what was
 * recorded, doubt in the reference, method and cautions.
 *
 * Light or dark as the reader prefers, from 320 px to a wide screen, on paper, by keyboard and read aloud. A small script
 * shows the place pointed at in all pictures; everything can be read without it. Names from files are only ever text.
 *
 * @param assessments - one assessment, with one run or several in it, or one assessment for each run of the same route
 * @throws {InputError} no assessment, assessments of different routes, unknown options
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * reportHtml(assess(street, [recording]), { title: 'A <short> street' }).includes('<h1>A &lt;short&gt; street</h1>') // → true
 */
export function reportHtml(assessments: Assessments, options: ReportHtmlOptions = {}): string {
  checkOptions(options, { title: true, summary: true });
  const bare = reportModel(assessments);
  const summary = options.summary ?? (bare.runs.length > 1 ? combine(bare.assessments) : null);
  if (summary !== null && summary.schema !== 1) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.summary',
      rule: 'what combine returned',
      value: summary,
    });
  }
  const model = reportModel(assessments, summary);
  const title = options.title ?? model.route.name ?? 'Recordings against a reference line';
  const walk = new WalkData();
  const parts = reportParts(model, walk);
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta
          http-equiv="Content-Security-Policy"
          content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
        />
        <title>{title}</title>
        <style>{new Markup(pageStyle())}</style>
      </head>
      <body>
        <a class="skip" href="#findings">
          To the findings
        </a>
        <header class="top">
          <h1>{title}</h1>
          {about(model)}
        </header>
        <main>
          {parts.map(({ id, heading, content }, i) => (
            <>
              <section id={id} aria-labelledby={`${id}-heading`}>
                <h2 id={`${id}-heading`}>{heading}</h2>
                {content}
              </section>
              {/* The findings first: what else there is to read comes after them. */}
              {i === 0 && navigation(parts.slice(1))}
            </>
          ))}
        </main>
        {walkBar(model)}
        {walk.toMarkup(model)}
        <script>{new Markup(pageScript)}</script>
      </body>
    </html>
  );
  return `<!doctype html>\n${page.text}\n`;
}

interface Part {
  readonly id: string;
  readonly heading: string;
  readonly content: Content;
}

/** A part that is there only where the assessment has something to say on it. */
function optional(id: string, heading: string, content: Content): Part[] {
  return content === null ? [] : [{ id, heading, content }];
}

function reportParts(model: ReportModel, walk: WalkData): Part[] {
  const plane = routePlane(model.route.line);
  const embed = (picture: Picture) => embeddedSvg(picture, { 'data-walk': walk.add(picture) });
  const places = shownPlaces(model);
  const strips = drawStrip(model, {
    width: 1080,
    title: 'Left and right of the line, along the whole route',
    rows: receiverRows(model, 0, model.route.length),
    rowHeight: 120,
    places,
    sections: 'named',
    count: 'from start',
    key: 'none',
  });
  const exaggeration = ribbonExaggeration(model, plane);
  return [
    { id: 'findings', heading: 'What was found, and what was not', content: answerPart(model) },
    { id: 'figures', heading: 'How far off, and is it sure?', content: figuresPart(model) },
    { id: 'where', heading: 'Where did they stray?', content: wherePart(model, plane, embed) },
    {
      id: 'along',
      heading: 'To which side, along the way?',
      content: (
        <>
          <ScrollRegion label="Left and right of the line" holds="picture">
            {embed(strips)}
          </ScrollRegion>
          <p class="note">
            Seen by the traveller: left of the line is above, right below. The wide tint is the corridor, the narrow one
            the uncertainty of the reference itself: within it no side is sure. A broken line is a gap in the recording.
            {model.runs.length > 1 && ' Runs are drawn from thin to thick, each named on its line.'}
          </p>
        </>
      ),
    },
    {
      id: 'ribbons',
      heading: `The same on the map, drawn ${exaggeration} times too wide`,
      content: (
        <div class="ribbons">
          {model.receivers.map((receiver) => {
            const heading = `${receiver.label}, offsets drawn ${exaggeration} times too wide`;
            return (
              <figure>
                {embed(
                  drawRibbon(model, plane, {
                    width: 420,
                    title: heading,
                    receivers: [receiver],
                    exaggeration,
                    key: 'none',
                  }),
                )}
                <figcaption>{receiverName(receiver)}</figcaption>
              </figure>
            );
          })}
        </div>
      ),
    },
    ...(model.sections.length > 0
      ? [{ id: 'stretches', heading: 'Stretch by stretch', content: stretchPart(model, embed) }]
      : []),
    { id: 'turns', heading: 'Were the turns cut or overshot?', content: cornerPart(model) },
    ...optional('side', 'Which side of the centreline do they show?', sidePart(model)),
    ...optional('decoy', 'Were they drawn to the other line?', decoyPart(model)),
    { id: 'pairs', heading: 'Do two receivers really differ?', content: pairPart(model) },
    ...optional('worn', 'The receiver, or where it was worn?', wornPart(model)),
    ...optional('repeat', 'Does each show the same again?', repeatPart(model)),
    { id: 'lengths', heading: 'Why the total length misleads', content: lengthPart(model) },
    { id: 'recordings', heading: 'What was recorded', content: recordingPart(model) },
    { id: 'doubt', heading: 'How far to trust the reference', content: doubtPart(model) },
    { id: 'method', heading: 'How it was done', content: methodPart(model) },
    {
      id: 'cautions',
      heading: 'Cautions',
      content: (
        <ul>
          {cautions.map((caution) => (
            <li>{caution}</li>
          ))}
        </ul>
      ),
    },
  ];
}

function about({ route, receivers, runs, strands }: ReportModel): Content {
  const count = (n: number, one: string) => `${n} ${n === 1 ? one : `${one}s`}`;
  return (
    <>
      <p class="lead">
        {[
          `A reference line of ${showAlong(route.length)}`,
          route.sections.length > 0
            ? `in ${count(route.sections.length, 'stretch').replace('stretchs', 'stretches')}`
            : '',
          `and ${count(strands.length, 'recording')}`,
          strands.length > receivers.length ? `of ${count(receivers.length, 'receiver')}` : '',
          runs.length > 1 ? `in ${count(runs.length, 'run')}.` : 'in one run: what follows holds for this run only.',
        ]
          .filter(Boolean)
          .join(' ')}
      </p>
      <p class="lead">{cautions[0]}</p>
    </>
  );
}

function navigation(parts: readonly Part[]): Content {
  return (
    <nav aria-label="Parts of the report">
      <ul>
        {parts.map(({ id, heading }) => (
          <li>
            <a href={`#${id}`}>{heading}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** The key, always in sight, and the slider that walks along the route in all pictures. */
function walkBar(model: ReportModel): Content {
  const { route, receivers, runs } = model;
  return (
    <footer id="walk" class="walk" aria-label="Key and walk along the route">
      <div>
        <label hidden>
          Walk along the route
          <input type="range" min={0} max={Math.floor(route.length)} step={1} value={0} />
          <output />
        </label>
        <ul tabindex={0} aria-label="Key, with the offsets at the place walked to">
          {receivers.map((receiver) => (
            <li>
              {receiverName(receiver)} <span data-values />
            </li>
          ))}
          {runs.length > 1 && <li>Runs, in this order, thin to thick:{runKey(model)}</li>}
        </ul>
      </div>
    </footer>
  );
}
