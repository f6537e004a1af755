/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { ReadonlySignal } from '@preact/signals';
import type { Recording } from 'datumline';
import type { GeoJSON } from 'geojson';
import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { offerFile } from '../offerFile';
import { freeSectionName } from './cutSection';
import { type Desk, makeDesk, type Tool } from './Desk';
import { NOTHING } from './Drawing';
import { describeStep, shownMetres, shownPosition } from './describeStep';
import { FileButton } from './FileButton';
import { LegList } from './LegList';
import type { LineStore } from './LineStore';
import { makeLineMap } from './makeLineMap';
import { PicturePart } from './PicturePart';
import { PlaceForm } from './PlaceForm';
import { spliceSteps } from './spliceSteps';
import { WholeLine } from './WholeLine';
import 'ol/ol.css';
import './line.css';

const tools: readonly { readonly tool: Tool; readonly label: string; readonly help: string }[] = [
  {
    tool: 'draw',
    label: 'Add points',
    help: 'Each click adds a point at the end of the line; on a point that is there, the line comes back to it.',
  },
  {
    tool: 'change',
    label: 'Move points',
    help: 'Drag a point. Drag an edge to put a point into it. Delete takes out the point that is marked.',
  },
  {
    tool: 'cut',
    label: 'Cut into sections',
    help: 'Click on the line where a section begins; it ends where the next one begins.',
  },
  {
    tool: 'area',
    label: 'Name an area',
    help: 'Click the corners of an area: what of the line lies in it is a section.',
  },
  { tool: 'mark', label: 'Set marks', help: 'Click beside the line: a mark at the nearest place of it.' },
  {
    tool: 'follow',
    label: 'Follow a line',
    help: 'Click a line of the surroundings to run along it; its distance and side are in the list.',
  },
  { tool: 'look', label: 'Look only', help: 'Clicks do nothing; drag to move the map.' },
];

/** The map and the list of legs. */
export function LineDesk(props: {
  readonly store: LineStore;
  readonly recordings: ReadonlySignal<readonly Recording[]>;
  readonly surroundings: ReadonlySignal<GeoJSON | null>;
  readonly openSurroundings: (file: File) => Promise<void>;
  readonly say: (sentence: string) => void;
}): VNode {
  const { store } = props;
  const desk = useMemo(() => makeDesk(props), []);
  const whole = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => keyed(event, desk);
    const element = whole.current!;
    element.addEventListener('keydown', listen);
    return () => element.removeEventListener('keydown', listen);
  }, []);
  const nowhere =
    store.drawing.value.steps.length === 0 &&
    props.recordings.value.length === 0 &&
    props.surroundings.value === null &&
    desk.goTo.value === null;
  const tool = tools.find((one) => one.tool === desk.tool.value);
  return (
    <div class="line-desk" ref={whole}>
      <div class="line-sheet">
        <Buttons desk={desk} />
        <div class="line-drawing">
          <fieldset class="tools">
            <legend>A click on the map</legend>
            {tools.map(({ tool: one, label }) => (
              <label key={one}>
                <input
                  type="radio"
                  name="line-tool"
                  checked={desk.tool.value === one}
                  onChange={() => {
                    desk.tool.value = one;
                    desk.corners.value = [];
                  }}
                />
                {label}
              </label>
            ))}
          </fieldset>
          <p class="quiet tool-help">
            {nowhere
              ? 'The map does not know yet where you were: open recordings, a line or surroundings, or type a place below it.'
              : desk.tool.value === 'place'
                ? 'Click the place of the map that you clicked in the picture.'
                : tool?.help}
          </p>
          {desk.tool.value === 'area' && <AreaButtons desk={desk} />}
          <MapFrame desk={desk} shows={nowhere ? 'nothing' : 'a place'} />
          <GoTo desk={desk} />
          <Told desk={desk} />
        </div>
        <div class="line-lists">
          {desk.fixed.value && <MadeOf desk={desk} />}
          <LegList desk={desk} />
          <WholeLine desk={desk} />
          <PicturePart desk={desk} />
          <p class="quiet">
            The line is your estimate of where you went: say on what it rests, and how well you know it.
          </p>
        </div>
      </div>
    </div>
  );
}

function Buttons({ desk }: { readonly desk: Desk }): VNode {
  const { store, say, recordings } = desk;
  const { changes, present } = store.history.value;
  const undo = () => {
    const did = store.undo();
    say(did === null ? 'Nothing to undo.' : `Undone: ${did}`);
  };
  const redo = () => {
    const did = store.redo();
    say(did === null ? 'Nothing to redo.' : `Done again: ${did}`);
  };
  const opened = async (file: File, take: (file: File) => Promise<void>) => {
    try {
      await take(file);
    } catch (error) {
      say((error as Error).message);
    }
  };
  const draft = async () => {
    say('Drafting a line from the recordings…');
    try {
      const drawing = await store.draft(recordings.value);
      desk.edit(() => ({ drawing }), 'Drafted from the recordings: correct it before you judge them by it.');
    } catch (error) {
      say(
        (error as Error).message.replace(
          /recordings\[(\d+)\]/g,
          (_, i) => recordings.value[Number(i)]?.name ?? `recording ${i}`,
        ),
      );
    }
  };
  return (
    <div class="line-buttons">
      <button type="button" disabled={present === 0} onClick={undo}>
        Undo
      </button>
      <button type="button" disabled={present === changes.length} onClick={redo}>
        Redo
      </button>
      <FileButton
        label="Open a line"
        take={(file) =>
          opened(file, async (given) => {
            await store.open(await given.text(), given.name);
            desk.selected.value = null;
            say(`Opened ${given.name}.`);
          })
        }
      />
      <button type="button" disabled={store.drawing.value.steps.length === 0} onClick={() => saveRecipe(desk)}>
        Save the line
      </button>
      <button type="button" disabled={recordings.value.length === 0} onClick={draft}>
        Begin from the recordings
      </button>
      <FileButton
        label="Open surroundings"
        accept=".json,.geojson"
        take={(file) =>
          opened(file, async (given) => {
            await desk.openSurroundings(given);
            say(`${given.name} lies beneath the line now.`);
          })
        }
      />
      <button
        type="button"
        disabled={store.drawing.value.steps.length === 0}
        onClick={() => {
          desk.selected.value = null;
          desk.edit(() => ({ drawing: NOTHING }), 'Begun anew; undo brings the line back.');
        }}
      >
        Begin anew
      </button>
    </div>
  );
}

function saveRecipe({ store, say }: Desk): void {
  const blob = new Blob([`${JSON.stringify(store.drawing.value, null, 1)}\n`], { type: 'application/json' });
  offerFile(blob, 'route.json');
  say('The line is saved as route.json.');
}

function MapFrame({ desk, shows }: { readonly desk: Desk; readonly shows: 'a place' | 'nothing' }): VNode {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => makeLineMap(frame.current!, desk), []);
  const { value: spacing } = desk.spacing;
  return (
    <figure class="line-map">
      <div
        ref={frame}
        class="line-map-frame"
        role="application"
        aria-label="Map of the line. The list beside it does all the map does."
      />
      <figcaption class="quiet">
        {shows === 'nothing'
          ? 'No place is shown yet.'
          : `Squares of ${spacing >= 1000 ? `${spacing / 1000} km` : `${spacing} m`}, north up; middle of the map at ${shownPosition(desk.middle.value)}.`}
      </figcaption>
    </figure>
  );
}

function AreaButtons({ desk }: { readonly desk: Desk }): VNode {
  const { corners, store } = desk;
  const finish = () => {
    const drawing = store.drawing.value;
    const ring = corners.value;
    const name = freeSectionName(drawing);
    const path = [drawing.steps.length];
    const inside = { type: 'Polygon' as const, coordinates: [[...ring, ring[0]]] };
    desk.edit(
      () => ({ drawing: spliceSteps(drawing, path, 0, { call: 'section', name, inside }), path }),
      `${name} is what lies in the area; its name can be changed in the list.`,
    );
    corners.value = [];
  };
  return (
    <p>
      <button type="button" disabled={corners.value.length < 3} onClick={finish}>
        Close the area
      </button>
      <button
        type="button"
        disabled={corners.value.length === 0}
        onClick={() => (corners.value = corners.value.slice(0, -1))}
      >
        Take back a corner
      </button>
    </p>
  );
}

/** That the line was made of others, and the way back to them. */
function MadeOf({ desk }: { readonly desk: Desk }): VNode {
  const [step] = desk.store.drawing.value.steps;
  const others = 'recipe' in step ? [step.recipe] : 'recipes' in step ? step.recipes : [];
  return (
    <div class="fixed">
      <p>
        This line was made of {others.length === 1 ? 'another one' : 'others'} ({describeStep(step).toLowerCase()}). How
        it was made can be changed in the list, but its legs can't be changed: to draw on them, go back to what it was
        made of.
      </p>
      {others.map((drawing, i) => (
        <button
          key={`${i}`}
          type="button"
          onClick={() => {
            desk.selected.value = null;
            desk.edit(() => ({ drawing }), 'Back at the line that it was made of; undo brings the other one again.');
          }}
        >
          {others.length === 1 ? 'Back to the line it was made of' : `Back to the ${i === 0 ? 'first' : 'second'} line`}
        </button>
      ))}
    </div>
  );
}

/** Length, what stands in the way of building, and what should be looked at. */
function Told({ desk }: { readonly desk: Desk }): VNode {
  const { laid, fault, notes, drawing } = desk.store;
  const route = laid.value?.route;
  return (
    <div class="told">
      <p>
        {route ? (
          <strong>{shownMetres(route.length)}</strong>
        ) : drawing.value.steps.length === 0 ? (
          'Nothing is drawn yet.'
        ) : fault.value ? (
          ''
        ) : (
          'One point more makes a line.'
        )}
        {route &&
          ` along the line as it is built, with ${route.sections.length} ${route.sections.length === 1 ? 'section' : 'sections'}${route.laps.length > 0 ? `, ${route.laps.map(({ count }) => `${count} laps`).join(' and ')}` : ''}.`}
      </p>
      {fault.value && (
        <p class="fault" role="alert">
          It cannot be built: {fault.value}
        </p>
      )}
      {(route?.warnings.length ?? 0) + notes.value.length > 0 && (
        <>
          <h3>To be looked at</h3>
          <ul class="warnings">
            {route?.warnings.map((warning) => (
              <li key={`${warning.reason} ${warning.from} ${warning.message}`}>
                {warning.message}{' '}
                <button
                  type="button"
                  aria-label={`Show the place: ${warning.message}`}
                  onClick={() => {
                    desk.shown.value = { from: warning.from, to: warning.to };
                    desk.say(`Shown: ${Math.round(warning.from)} to ${Math.round(warning.to)} m along the line.`);
                  }}
                >
                  Show
                </button>
              </li>
            ))}
            {notes.value.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
          {desk.shown.value && (
            <button type="button" onClick={() => (desk.shown.value = null)}>
              Hide the place shown
            </button>
          )}
        </>
      )}
    </div>
  );
}

function GoTo({ desk }: { readonly desk: Desk }): VNode {
  return (
    <PlaceForm
      class="go-to"
      legend="Where the map looks"
      what="A place"
      next="none"
      say={desk.say}
      take={(position) => {
        desk.goTo.value = { to: position };
        desk.say(`The map shows ${shownPosition(position)}.`);
      }}
    >
      <button type="submit">Show this place</button>
      <button
        type="button"
        disabled={desk.store.drawing.value.steps.length === 0}
        onClick={() => (desk.goTo.value = { to: 'line' })}
      >
        Show the whole line
      </button>
      <button
        type="button"
        disabled={desk.recordings.value.length === 0}
        onClick={() => (desk.goTo.value = { to: 'recordings' })}
      >
        Show the recordings
      </button>
    </PlaceForm>
  );
}

/** Ctrl+Z and Ctrl+Y outside of fields, and Delete on the map. */
function keyed(event: KeyboardEvent, desk: Desk): void {
  const target = event.target as HTMLElement;
  if (/^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) && (target as HTMLInputElement).type !== 'radio') return;
  const { store, say } = desk;
  const key = event.key.toLowerCase();
  if ((event.ctrlKey || event.metaKey) && (key === 'z' || key === 'y')) {
    event.preventDefault();
    const back = key === 'z' && !event.shiftKey;
    const did = back ? store.undo() : store.redo();
    say(did === null ? `Nothing to ${back ? 'undo' : 'redo'}.` : `${back ? 'Undone' : 'Done again'}: ${did}`);
  } else if ((key === 'delete' || key === 'backspace') && target.classList.contains('line-map-frame')) {
    event.preventDefault();
    desk.removeSelected();
  }
}
