/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { LineDesk } from './line';
import type { PageState } from './PageState';
import { RecordingDesk } from './recordings/RecordingDesk';
import { ReportDesk } from './report/ReportDesk';

/** The three questions, one below the other or side by side, and what is said. */
export function Page({ state }: { readonly state: PageState }): VNode {
  return (
    <div class="page">
      <header>
        <h1>How far did each receiver stray?</h1>
        <p>
          Draw the way you really went, add what your receivers recorded, and read, stretch by stretch, how far each lay
          from it and to which side. <strong>Nothing leaves this computer:</strong> this page is one file and sends and
          fetches nothing.
        </p>
      </header>
      <main>
        <section class="desk where" aria-labelledby="where">
          <h2 id="where">Where did you go?</h2>
          <p class="care">
            The line is an estimate: say how sure you are of it. Differences smaller than that are none. Drawing over a
            picture or a map, mind its licence.
          </p>
          <LineDesk
            store={state.line}
            recordings={state.recordings}
            surroundings={state.surroundings}
            openSurroundings={(file) => state.openSurroundings({ path: file.name, file })}
            say={state.say}
          />
        </section>
        <section class="desk who" aria-labelledby="who">
          <h2 id="who">Who recorded it?</h2>
          <RecordingDesk state={state} />
        </section>
        <section class="desk what" aria-labelledby="what">
          <h2 id="what">What came of it?</h2>
          <ReportDesk state={state} />
        </section>
      </main>
      <KeptNotice state={state} />
      <p class="said" role="status">
        {state.said.value}
      </p>
    </div>
  );
}

function KeptNotice({ state }: { readonly state: PageState }): VNode {
  const asking = useSignal(false);
  const refused = state.notKept.value;
  return (
    <footer>
      <h2>What this browser keeps</h2>
      {refused === null ? (
        <p>
          What you open here, recordings included, is kept in this browser on this computer, so that it is there the
          next time, with every change of the line, to be undone. Whoever uses this browser can see it, until you forget
          it.
        </p>
      ) : (
        <p class="fault">{refused.sentence}</p>
      )}
      {state.windows.value === 'several' && (
        <p class="care">
          This page is open in another window too. One thing is kept for both: what was changed last, here or there.
          Close one of them.
        </p>
      )}
      {asking.value ? (
        <p class="choice">
          The line, the recordings and the report will be gone. Your own files stay where they are.{' '}
          <button
            type="button"
            class="grave"
            onClick={() => {
              asking.value = false;
              void state.forget();
            }}
          >
            Forget it all
          </button>{' '}
          <button
            type="button"
            onClick={() => {
              asking.value = false;
            }}
          >
            Keep it
          </button>
        </p>
      ) : (
        <p>
          <button
            type="button"
            onClick={() => {
              asking.value = true;
            }}
          >
            Forget everything…
          </button>
        </p>
      )}
    </footer>
  );
}
