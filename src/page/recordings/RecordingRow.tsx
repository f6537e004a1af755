/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { VNode } from 'preact';
import type { PageState } from '../PageState';
import { spanOf } from '../spanOf';
import { TextField } from '../TextField';
import type { Entry } from './Entry';

/** One recording, and below it what was dropped or mended of it. */
export function RecordingRow({ entry, state }: { readonly entry: Entry; readonly state: PageState }): VNode {
  const { id, path, track, recording, fault, zone } = entry;
  const fit = recording && state.line.route.value && state.fits.value.get(recording);
  const remarks = [
    ...(fault === null ? [] : [fault]),
    ...(fit?.remark ? [fit.remark] : []),
    ...(recording?.issues ?? []).map(
      ({ message, count, place }) => `${message} (${count === 1 ? place : `${count} times, first ${place}`}).`,
    ),
  ];
  const of = track === undefined ? path : `${path}, ${track}`;
  const field = (key: 'receiver' | 'placement' | 'run', label: string, list: string) => (
    <td data-label={label}>
      {recording === null && entry.by === 'guess' ? (
        '–'
      ) : (
        <TextField
          label={`${label} of ${of}`}
          list={list}
          value={entry[key]}
          take={(text) => state.change(id, { [key]: text })}
        />
      )}
    </td>
  );
  const serious = fault !== null || Boolean(fit?.remark);
  return (
    <>
      <tr class={serious ? 'serious' : undefined}>
        <th scope="row" data-label="File">
          {path.replace(/^.*\//, '')}
          {path.includes('/') && <span class="under">in {path.replace(/\/[^/]*$/, '')}</span>}
          {track !== undefined && <span class="under">{track}</span>}
          {zone !== undefined && <span class="under">times read in {zone}</span>}
        </th>
        {field('receiver', 'Receiver', 'receivers')}
        {field('placement', 'Carried at', 'placements')}
        {field('run', 'Run', 'runs')}
        <td class="number" data-label="Fixes">
          {recording === null ? '–' : recording.lon.length}
        </td>
        <td class="span" data-label="From – to (UTC)">
          {recording === null ? '–' : <SpanWords span={spanOf(recording)} />}
        </td>
        <td class="number" data-label="Covered">
          {!fit ? '–' : `${(100 * fit.coverage).toFixed(0)} %`}
        </td>
        <td>
          <button type="button" title="Take out" aria-label={`Take out ${of}`} onClick={() => state.remove(id)}>
            ✕
          </button>
        </td>
      </tr>
      {remarks.length > 0 && (
        <tr class={serious ? 'remarks serious' : 'remarks'}>
          <td colSpan={8}>
            <ul>
              {remarks.map((remark) => (
                <li key={remark}>{remark}</li>
              ))}
            </ul>
          </td>
        </tr>
      )}
    </>
  );
}

/** First and last time in UTC, the day above them. */
function SpanWords({ span }: { readonly span: [begin: number, end: number] | undefined }): VNode {
  if (span === undefined) return <>no times</>;
  const [begin, end] = span.map((instant) => new Date(instant).toISOString());
  const [day, last] = [begin.slice(0, 10), end.slice(0, 10)];
  return (
    <span>
      <span class="part">{day}</span>{' '}
      <span class="part">
        {begin.slice(11, 19)}–{last === day ? '' : `${last} `}
        {end.slice(11, 19)}
      </span>
    </span>
  );
}
