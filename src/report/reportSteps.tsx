import { cautions } from '../assess';
import { checkLooks, checkOptions, checkString, InputError, type Steps } from '../model';
import { checkTimed, combineSteps } from '../runs';
import type { TimedAssessment } from '../truth';
import { type Content, element, fragment } from './element';
import { listItem } from './listItem';
import { Markup } from './Markup';
import { pageScript } from './pageScript';
import { pageStyle } from './pageStyle';
import { type ReportHtmlOptions, reportHtmlKeys } from './ReportHtmlOptions';
import { type Assessments, type ReportModel, reportModel } from './reportModel';
import { type ReportPart, reportParts } from './reportParts';
import { showAlong, showCount } from './showFigures';
import { type SurroundingCredit, surroundingCredit } from './surroundingCredit';
import { timedStrands } from './timedStrands';
import { walkBar } from './walkBar';
import { WalkData } from './walkData';

/** What `reportHtml` does, in steps: what the runs say together, then the parts. */
export function* reportSteps(assessments: Assessments, options: ReportHtmlOptions): Steps<string> {
  checkOptions(options, reportHtmlKeys);
  const { looks = {}, dates = {} } = options;
  checkDates(dates);
  checkLooks(looks, 'options.looks');
  const bare = reportModel(assessments, null, looks);
  yield;
  const timed = timedOf(options.byTime);
  const combined = () => combineSteps(bare.assessments, timed.length > 0 ? { byTime: timed } : {});
  const summary = options.summary ?? (bare.runs.length > 1 ? yield* combined() : null);
  if (summary !== null && summary.schema !== 1) {
    const rule = 'what combine returned';
    throw new InputError({ reason: 'wrong-type', argument: 'options.summary', rule, value: summary });
  }
  if (options.title !== undefined && typeof options.title !== 'string') {
    throw new InputError({ reason: 'wrong-type', argument: 'options.title', rule: 'text', value: options.title });
  }
  const model = { ...bare, summary };
  const title = options.title ?? model.route.name ?? 'Recordings against a reference line';
  const walk = new WalkData();
  const credit = surroundingCredit(options);
  const parts = yield* reportParts(model, walk, timedStrands(model, timed, looks), options);
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
          strands.length > 0
            ? `and ${showCount(strands.length, 'recording')}`
            : 'and no recording that could be judged.',
          strands.length > receivers.length ? `of ${showCount(receivers.length, 'receiver')}` : '',
          strands.length === 0
            ? ''
            : runs.length > 1
              ? `in ${showCount(runs.length, 'run')}.`
              : 'in one run: what follows holds for this run only.',
        ]
          .filter(Boolean)
          .join(' ')}
        {dated.length > 0 && ` Recorded: ${dated.join('; ')}.`}
        {leftOut.length > 0 && (
          <>
            {' '}
            <strong>Left out:</strong>{' '}
            {leftOut
              .map((one) => one.replace(/\.$/, ''))
              .join('; ')
              .replace(/[^?]$/, '$&.')}
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
