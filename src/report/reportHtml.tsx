import { cautions } from '../assess';
import { checkLooks, checkOptions, checkString, InputError, type OptionKeys, type ReceiverLooks } from '../model';
import { checkTimed, combine, type TestSummary } from '../runs';
import type { TimedAssessment } from '../truth';
import { type Content, element, fragment } from './element';
import { listItem } from './listItem';
import { Markup } from './Markup';
import { pageScript } from './pageScript';
import { pageStyle } from './pageStyle';
import { type Assessments, type ReportModel, reportModel } from './reportModel';
import { type ReportPart, reportParts } from './reportParts';
import { type SurroundingOptions, surroundingKeys } from './SurroundingOptions';
import { showAlong, showCount } from './showFigures';
import { type SurroundingCredit, surroundingCredit } from './surroundingCredit';
import { timedStrands } from './timedStrands';
import { walkBar } from './walkBar';
import { WalkData } from './walkData';

/** Options of {@link reportHtml}. */
export interface ReportHtmlOptions extends SurroundingOptions {
  /** Heading of the report. @defaultValue the route's name */
  readonly title?: string;
  /** What several runs say together. @defaultValue what `combine` finds, where the recordings come from more than one run */
  readonly summary?: TestSummary;
  /** What `judgeByTime` found of the same runs: a part of its own shows it. @defaultValue none */
  readonly byTime?: TimedAssessment | readonly TimedAssessment[];
  /** What was to be in it and isn't, each as `NAME: why`: files that could not be read. @defaultValue none */
  readonly leftOut?: readonly string[];
  /** How receivers are drawn. @defaultValue by their names: the same receiver alike in every report */
  readonly looks?: ReceiverLooks;
  /**
   * When each run was made, by its name, in your own words: an assessment tells no absolute times, as they say when somebody
   * was where. Runs that are not there are passed over. @defaultValue none
   */
  readonly dates?: { readonly [run: string]: string };
}

/**
 * A report as one HTML file that opens from disk and requests nothing: findings in words first, what could not be shown
 * included; figures by stretch and receiver with their intervals and ties; the route from above with the worst places
 * numbered, left and right along the route, offsets exaggerated, each stretch by itself, turns, errors by the clock where a
 * truth was carried along, pairs, lengths, what was recorded, doubt in the reference, method and cautions.
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
  checkOptions(options, optionKeys);
  const { looks = {}, dates = {} } = options;
  checkDates(dates);
  checkLooks(looks, 'options.looks');
  const bare = reportModel(assessments);
  const timed = timedOf(options.byTime);
  const combined = () => combine(bare.assessments, timed.length > 0 ? { byTime: timed } : {});
  const summary = options.summary ?? (bare.runs.length > 1 ? combined() : null);
  if (summary !== null && summary.schema !== 1) {
    const rule = 'what combine returned';
    throw new InputError({ reason: 'wrong-type', argument: 'options.summary', rule, value: summary });
  }
  if (options.title !== undefined && typeof options.title !== 'string') {
    throw new InputError({ reason: 'wrong-type', argument: 'options.title', rule: 'text', value: options.title });
  }
  const model = reportModel(assessments, summary, looks);
  const title = options.title ?? model.route.name ?? 'Recordings against a reference line';
  const walk = new WalkData();
  const credit = surroundingCredit(options);
  const parts = reportParts(model, walk, timedStrands(model, timed, looks), options);
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
          Skip to the findings
        </a>
        <header class="top">
          <h1>{title}</h1>
          {about(model, dates, options.leftOut ?? [])}
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
          {credit && creditLine(credit)}
        </main>
        {walkBar(model)}
        {walk.toMarkup(model)}
        <script>{new Markup(pageScript)}</script>
      </body>
    </html>
  );
  return `<!doctype html>\n${page.text}\n`;
}

const optionKeys: OptionKeys<ReportHtmlOptions> = {
  title: true,
  summary: true,
  byTime: true,
  looks: true,
  dates: true,
  leftOut: true,
  ...surroundingKeys,
};

/** Whose the surroundings are; a warning where nobody says. */
function creditLine({ words, stated }: SurroundingCredit): Content {
  if (stated === 'yes') return <p class="note">{words}</p>;
  return (
    <p class="care">
      <strong>{words}</strong> who passes this report on must know whose they are.
    </p>
  );
}

function timedOf(given: ReportHtmlOptions['byTime']): readonly TimedAssessment[] {
  if (given === undefined) return [];
  const timed: readonly TimedAssessment[] = Array.isArray(given) ? given : [given as TimedAssessment];
  if (timed.length > 0) checkTimed(timed, 'options.byTime');
  return timed;
}

function about(
  { assessments, route, receivers, runs, strands }: ReportModel,
  dates: Dates,
  unread: readonly string[],
): Content {
  const refused = assessments.flatMap(({ recordings }) =>
    recordings.flatMap(({ name, run, leftOut }) =>
      leftOut ? `${run === null || runs.length < 2 ? name : `${name} (${run})`}: ${leftOut.message}` : [],
    ),
  );
  const leftOut = [...unread, ...refused];
  const dated = runs.flatMap((run) =>
    run !== null && Object.hasOwn(dates, run) ? [runs.length > 1 ? `${run}, ${dates[run]}` : dates[run]] : [],
  );
  return (
    <>
      <p class="lead">
        {[
          `A reference line of ${showAlong(route.length)}`,
          route.sections.length > 0 ? `in ${showCount(route.sections.length, 'stretch', 'stretches')}` : '',
          `and ${showCount(strands.length, 'recording')}`,
          strands.length > receivers.length ? `of ${showCount(receivers.length, 'receiver')}` : '',
          runs.length > 1
            ? `in ${showCount(runs.length, 'run')}.`
            : 'in one run: what follows holds for this run only.',
        ]
          .filter(Boolean)
          .join(' ')}
        {dated.length > 0 && ` Recorded: ${dated.join('; ')}.`}
        {leftOut.length > 0 && (
          <>
            {' '}
            <strong>Left out:</strong> {leftOut.map((one) => one.replace(/\.$/, '')).join('; ')}.
          </>
        )}
      </p>
      <p class="lead">{cautions[0]}</p>
    </>
  );
}

function navigation(parts: readonly ReportPart[]): Content {
  return (
    <nav aria-label="Parts of the report">
      <ul>{parts.map(({ id, heading }) => listItem(<a href={`#${id}`}>{heading}</a>))}</ul>
    </nav>
  );
}

type Dates = NonNullable<ReportHtmlOptions['dates']>;

function checkDates(dates: Dates): void {
  if (typeof dates !== 'object' || dates === null || Array.isArray(dates)) {
    const rule = 'an object of dates by run';
    throw new InputError({ reason: 'wrong-type', argument: 'options.dates', rule, value: dates });
  }
  for (const [run, date] of Object.entries(dates)) {
    checkString(date, `options.dates[${JSON.stringify(run)}]`, { min: 1 });
  }
}
