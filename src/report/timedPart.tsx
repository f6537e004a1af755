import type { ErrorOverRuns, TimedSummary, TimedSummaryRow } from '../runs';
import type { ErrorFigure, TimedRow } from '../truth';
import { captioned } from './captioned';
import { DataTable, type TableRow } from './DataTable';
import { drawClock } from './drawClock';
import { drawScatter, scatterReach } from './drawScatter';
import { type Content, element, fragment } from './element';
import { Folded } from './Folded';
import { listItem } from './listItem';
import type { Picture } from './Picture';
import { receiverName } from './receiverName';
import type { Receiver } from './reportModel';
import { ScrollRegion } from './ScrollRegion';
import { showDuration, showInterval, showLateness, showMetres, showNumber, showShare, showSigned } from './showFigures';
import { timedFindings } from './timedFindings';
import type { TimedStrand } from './timedStrands';

/** A figure and its interval, whether of a run or over runs. */
interface Shown {
  readonly value: number;
  readonly interval95: readonly [number, number] | null;
  readonly unresolved: boolean;
}

const components = ['horizontal', 'along', 'across'] as const;
const shares = ['p50', 'p75', 'p95'] as const;

/** How far each recording was from where the truth was at that second. Null where there was no truth. */
export function timedPart(
  strands: readonly TimedStrand[],
  summary: TimedSummary | null,
  embed: (picture: Picture) => Content,
): Content {
  if (strands.length === 0) return null;
  const receivers = [...new Set(strands.map(({ receiver }) => receiver))];
  const runs = [...new Set(strands.map(({ run }) => run))];
  const timed = [...new Set(strands.map((strand) => strand.timed))];
  const onRoute = strands.some(({ timed: { truth } }) => truth.alongTrack.some((metres) => metres !== null));
  const reach = scatterReach(strands);
  const sections = [...new Set(strands.flatMap(({ rows }) => [...rows.keys()]))].filter((name) => name !== null);
  const over = summary !== null && summary.runs.length > 1 ? summary : null;
  const rowsIn = (section: string | null): TableRow[] =>
    receivers.flatMap((receiver) => {
      const joined = over?.rows.find((row) => row.section === section && row.receiver === receiver.label);
      const mine = strands.filter((strand) => strand.receiver === receiver);
      if (joined) return [figuresRow(receiverName(receiver), joined)];
      return mine.flatMap((strand) => {
        const row = strand.rows.get(section);
        return row ? [figuresRow(named(strand, runs), row)] : [];
      });
    });
  const table = (section: string | null) => (
    <DataTable
      caption={`How far off by the clock, ${section ?? 'the whole'}: what 50, 75 and 95 % of the seconds lay within`}
      columns={[
        'Receiver',
        ...components.flatMap((kind) => shares.map((share) => `${kind} ${share.slice(1)} %`)),
        'CE95',
      ]}
      rows={rowsIn(section)}
    />
  );
  const findings = timedFindings(timed, summary);
  return (
    <>
      {findings.whole.length > 0 && <ul class="findings">{findings.whole.map(listItem)}</ul>}
      {findings.sections.length > 0 && (
        <Folded summary="What is sure of single sections">
          <ul>{findings.sections.map(listItem)}</ul>
        </Folded>
      )}
      {table(null)}
      <p class="note">
        Metres from where the truth was at that second, and below them the 95 % interval
        {over ? ' over the runs: each figure is the mean over them' : ', of this run only'}. Horizontal: in any
        direction; along: ahead or behind; across: left or right; sizes, without sign. CE95: the radius that holds 95 %
        of a normal error of the spread found. Fainter figures are smaller than the truth’s own uncertainty: not
        resolved.
      </p>
      {sections.length > 0 && <Folded summary="The same by section">{sections.map(table)}</Folded>}
      <div class="ribbons">
        {receivers.map((receiver) => {
          const mine = strands.filter((strand) => strand.receiver === receiver);
          return captioned(
            embed(drawScatter(receiver, mine, ringOf(receiver, mine, over), reach)),
            receiverName(receiver),
          );
        })}
      </div>
      <p class="note">
        About the true place, which is the middle: ahead is up, right to the right. The ring is CE95
        {strands.some(({ rows }) => rows.get(null)?.doubt95) && ', the disc the uncertainty of the truth'}. All are
        drawn to the same {showMetres(reach)}.
      </p>
      {clock('time', 'Errors along and across against time', strands, runs, receivers, embed)}
      {onRoute && (
        <Folded summary="Against the route">
          {clock('route', 'Errors along and across against the route', strands, runs, receivers, embed)}
        </Folded>
      )}
      {presence(strands, runs)}
      {warningsOf(timed)}
    </>
  );
}

function clock(
  axis: 'time' | 'route',
  label: string,
  strands: readonly TimedStrand[],
  runs: readonly (string | null)[],
  receivers: readonly Receiver[],
  embed: (picture: Picture) => Content,
): Content {
  return (
    <ScrollRegion label={label} holds="picture">
      {embed(drawClock(strands, runs, { width: 1080, axis, receivers }))}
    </ScrollRegion>
  );
}

function named({ receiver, run }: TimedStrand, runs: readonly (string | null)[]): Content {
  return run !== null && runs.length > 1 ? [receiverName(receiver), ' ', <bdi>{run}</bdi>] : receiverName(receiver);
}

/** CE95 over the runs, else of the only one, else the largest. */
function ringOf(receiver: Receiver, strands: readonly TimedStrand[], over: TimedSummary | null): number | null {
  const joined = over?.rows.find((row) => row.section === null && row.receiver === receiver.label)?.ce95?.mean;
  const radii = strands.flatMap(({ rows }) => rows.get(null)?.ce95 ?? []);
  return joined ?? (radii.length > 0 ? Math.max(...radii) : null);
}

function figuresRow(heading: Content, row: TimedRow | TimedSummaryRow): TableRow {
  const ce95 =
    typeof row.ce95 === 'number'
      ? { value: row.ce95, interval95: ('circularIntervals95' in row && row.circularIntervals95?.ce95) || null }
      : row.ce95 && { value: row.ce95.mean, interval95: row.ce95.interval95 };
  return {
    heading,
    cells: [
      ...components.flatMap((kind) => shares.map((share) => figure(shownOf(row[kind], share)))),
      figure(ce95 && { ...ce95, unresolved: ce95.value < (row.doubt95 ?? 0) }),
    ],
  };
}

function shownOf(error: ErrorFigure | ErrorOverRuns | null, share: (typeof shares)[number]): Shown | null {
  if (error === null) return null;
  const unresolved = error.unresolved.includes(share);
  const told = error[share];
  if (typeof told !== 'number') return { value: told.mean, interval95: told.interval95, unresolved };
  const interval95 = 'intervals95' in error ? (error.intervals95?.[share] ?? null) : null;
  return { value: told, interval95, unresolved };
}

function figure(shown: Shown | null): Content {
  if (shown === null) return <span class="under">no figure</span>;
  return (
    <span class={shown.unresolved ? 'weak' : undefined}>
      {showMetres(shown.value)}
      {shown.interval95 && <span class="under">{showInterval(shown.interval95)}</span>}
    </span>
  );
}

/** Whether each was there at all, and how late. */
function presence(strands: readonly TimedStrand[], runs: readonly (string | null)[]): Content {
  return (
    <>
      <DataTable
        caption="There at all, and how late"
        columns={[
          'Recording',
          'seconds with a fix',
          'longest outage',
          'first fix after',
          'on average ahead (+) or behind (−)',
          'late (+) or early (−)',
          'along, 95 %, with that taken out',
        ]}
        rows={strands.map((strand) => {
          const row = strand.rows.get(null)!;
          const { longestOutage, delay } = row;
          return {
            heading: named(strand, runs),
            cells: [
              `${showShare(row.availability)} of ${showNumber(row.seconds, 0)}`,
              longestOutage
                ? [
                    showDuration(longestOutage.seconds),
                    <span class="under">{showDuration(longestOutage.from)} after the beginning</span>,
                  ]
                : 'none',
              showDuration(strand.recording.timeToFirstFix),
              row.along
                ? [
                    showSigned(row.along.mean),
                    row.along.interval95 && <span class="under">{showInterval(row.along.interval95)}</span>,
                  ]
                : 'no figure',
              delay
                ? [
                    showLateness(delay.seconds),
                    delay.interval95 && <span class="under">{delay.interval95.map(showLateness).join(' to ')}</span>,
                  ]
                : 'can’t be told',
              delay ? showMetres(delay.removed.along?.p95 ?? null) : '–',
            ],
          };
        })}
      />
      <p class="note">
        A delay is reported and taken out of nothing but the last column. A receiver that lies a constant distance ahead
        looks early as well: only changes of pace tell the two apart.
      </p>
    </>
  );
}

/** What the truth leaves open, and which recordings it could not judge, each once. */
function warningsOf(timed: readonly TimedStrand['timed'][]): Content {
  const told = new Set(
    timed.flatMap(({ warnings }) =>
      warnings
        .filter(({ reason }) => reason !== 'one-run')
        .map(({ recording, message }) => (recording === null ? message : `${recording}: ${message}`)),
    ),
  );
  return told.size === 0 ? null : <ul class="note">{[...told].map(listItem)}</ul>;
}
