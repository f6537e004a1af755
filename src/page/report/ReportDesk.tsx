/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { offerFile } from '../offerFile';
import type { PageState } from '../PageState';
import { TextField } from '../TextField';
import type { Extent } from '../work/Task';

/** Making the report, reading it, and saving all there is. */
export function ReportDesk({ state }: { readonly state: PageState }): VNode {
  const report = state.report.value;
  const plan = state.plan.value;
  const missing = typeof plan === 'string' ? plan : null;
  return (
    <>
      <p class="name">
        <label htmlFor="test-name">What the test is called</label>{' '}
        <TextField id="test-name" value={state.stated.value.test.name ?? ''} take={state.rename} />
      </p>
      <p class="choose">
        {report.kind === 'busy' ? (
          <>
            <button type="button" onClick={() => state.stop()}>
              Stop
            </button>{' '}
            <progress aria-label="Making the report" max={1} value={report.share} />{' '}
            <span class="busy">{report.sentence} …</span>
          </>
        ) : (
          <>
            <button type="button" class="main" disabled={missing !== null} onClick={() => void state.makeReport()}>
              {report.kind === 'made' ? 'Make the report anew' : 'Make the report'}
            </button>{' '}
            {missing !== null && <span class="note">{missing}</span>}
          </>
        )}
      </p>
      {report.kind === 'failed' && <p class="fault">No report could be made: {report.sentence}</p>}
      {report.kind === 'made' && (
        <>
          {report.of !== plan && <p class="care">Something changed since this report was made: make it anew.</p>}
          <iframe title="The report" sandbox="allow-scripts" srcdoc={report.html} />
        </>
      )}
      <Saving state={state} missing={missing} />
    </>
  );
}

function Saving({ state, missing }: { readonly state: PageState; readonly missing: string | null }): VNode {
  const extent = useSignal<Extent>('cut');
  const busy = state.saving.value;
  const choice = (value: Extent, words: string) => (
    <label>
      <input
        type="radio"
        name="extent"
        checked={extent.value === value}
        onChange={() => {
          extent.value = value;
        }}
      />{' '}
      {words}
    </label>
  );
  return (
    <fieldset class="saving">
      <legend>Save the test and its report</legend>
      <p>
        One zip: the report, its figures and places as files, and the test itself, which opens here again and which the
        command <code>datumline assess test.json</code> judges to the same figures.
      </p>
      {choice('cut', 'Recordings cut to the line, without times of day: fit to be passed on, if the line itself is')}
      {choice('whole', 'Recordings whole, as they are: ways to and from home included')}
      <p class="choose">
        {busy === null ? (
          <button
            type="button"
            disabled={missing !== null}
            onClick={async () => {
              const zip = await state.save(extent.value);
              if (zip) offerFile(zip, 'test.zip');
            }}
          >
            Save
          </button>
        ) : (
          <>
            <button type="button" onClick={() => state.stop()}>
              Stop
            </button>{' '}
            <progress aria-label="Saving" max={1} value={busy.share} /> <span class="busy">{busy.sentence} …</span>
          </>
        )}
      </p>
    </fieldset>
  );
}
