/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { PageState } from '../PageState';
import { RecordingRow } from './RecordingRow';

/** Choosing files, the table of what is in them, and what is asked about them. */
export function RecordingDesk({ state }: { readonly state: PageState }): VNode {
  const entries = state.entries.value;
  const reading = state.reading.value;
  return (
    <>
      <p class="choose">
        <label class="button">
          Choose files
          <input
            type="file"
            multiple
            onChange={async ({ currentTarget }) => {
              const files = [...(currentTarget.files ?? [])].map((file) => ({ path: file.name, file }));
              currentTarget.value = '';
              await state.open(files);
            }}
          />
        </label>{' '}
        <span>
          or drop them anywhere on this page: GPX, TCX, KML, KMZ, FIT, NMEA, CSV, GeoJSON, a zip of them, or a test file
          with what it names.
        </span>
      </p>
      {reading > 0 && <p class="busy">Reading: {reading} to go …</p>}
      <ZoneQuestion state={state} />
      {entries.length === 0 ? (
        <p class="empty">
          No recording yet. Several receivers carried at once tell more than one; several runs more than one run.
        </p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard
        <div class="scroll" role="region" aria-label="Recordings" tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">File</th>
                <th scope="col">Receiver</th>
                <th scope="col">Carried at</th>
                <th scope="col">Run</th>
                <th scope="col" class="number">
                  Fixes
                </th>
                <th scope="col">From – to (UTC)</th>
                <th scope="col" class="number">
                  Covered
                </th>
                <th scope="col">
                  <span class="unseen">Take out</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {entries.map((entry) => (
                <RecordingRow key={entry.id} entry={entry} state={state} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      <Suggestions state={state} />
      <StatedBeside state={state} />
    </>
  );
}

/** Words to pick from where receiver, placement and run are typed. */
function Suggestions({ state }: { readonly state: PageState }): VNode {
  const entries = state.entries.value;
  const lists = {
    receivers: entries.map(({ receiver }) => receiver),
    runs: entries.map(({ run }) => run),
    placements: [
      ...entries.map(({ placement }) => placement),
      ...['left wrist', 'right wrist', 'handlebar', 'chest', 'helmet', 'rucksack', 'pocket'],
    ],
  };
  return (
    <>
      {Object.entries(lists).map(([id, words]) => (
        <datalist key={id} id={id}>
          {[...new Set(words)]
            .filter((word) => word !== '')
            .map((word) => (
              <option key={word} value={word} />
            ))}
        </datalist>
      ))}
    </>
  );
}

/** Asks once for all files whose times state no zone. */
function ZoneQuestion({ state }: { readonly state: PageState }): VNode | null {
  const zone = useSignal(Intl.DateTimeFormat().resolvedOptions().timeZone ?? 'UTC');
  const asking = state.entries.value.filter(({ asks }) => asks === 'zone').length;
  if (asking === 0) return null;
  return (
    <form
      class="question"
      onSubmit={(event) => {
        event.preventDefault();
        void state.setZone(zone.value.trim());
      }}
    >
      <label>
        {asking === 1 ? 'The times of one file state no zone.' : `The times of ${asking} files state no zone.`} They are
        in{' '}
        <input
          list="zones"
          value={zone}
          onInput={({ currentTarget }) => {
            zone.value = currentTarget.value;
          }}
        />
      </label>{' '}
      <datalist id="zones">
        {['UTC', '+01:00', '+02:00', '-05:00', '-08:00'].map((word) => (
          <option key={word} value={word} />
        ))}
      </datalist>
      <button type="submit">Read them so</button>
      <p class="note">UTC, an offset such as +02:00, or a name such as Europe/Lisbon.</p>
    </form>
  );
}

/** What a test file states that has no field here: it is used, and written again. */
function StatedBeside({ state }: { readonly state: PageState }): VNode | null {
  const { test, runs } = state.stated.value;
  const used = new Set(state.entries.value.map(({ run }) => run));
  const left = (list: readonly { readonly reason: string }[] | undefined) =>
    (list ?? []).map(({ reason, ...where }) => `left out is ${placeOf(where)}: ${reason}`);
  const { leverArm, equivalence, pace, baseline } = test.options ?? {};
  const companions = Object.entries(state.companions.value);
  const lines = [
    ...left(test.exclusions).map((line) => `In every run ${line}`),
    ...runs.flatMap(({ name, exclusions }) => left(exclusions).map((line) => `In “${name}” ${line}`)),
    ...runs
      .filter(({ name, exclusions }) => exclusions && !used.has(name))
      .map(({ name }) => `No recording is of “${name}” any more: what is left out there is not used.`),
    ...(leverArm === undefined ? [] : [`Receivers were carried up to ${leverArm} m from the line`]),
    ...(equivalence === undefined ? [] : [`Differences within ${equivalence} m count as none`]),
    ...(pace === 'apart' ? ['Each receiver was carried at its own pace'] : []),
    ...(baseline === undefined ? [] : [`All are compared with “${baseline}” alone`]),
    ...companions.map(([key, given]) => `${companionWords[key]}: ${given.path}`),
    ...Object.entries(state.truths.value).map(
      ([run, { given }]) => `True place by the second, “${run}”: ${given.path}`,
    ),
  ];
  if (lines.length === 0) return null;
  return (
    <details class="stated">
      <summary>Also in this test ({lines.length})</summary>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}

const companionWords: Readonly<Record<string, string>> = {
  decoy: 'A line that receivers may be drawn to',
  centreline: 'Centreline of the street',
  areas: 'Areas that the recordings are judged by',
};

const placeOf = (where: object) =>
  'section' in where ? `“${where.section}”` : 'from' in where && 'to' in where ? `${where.from}–${where.to} m` : '';
