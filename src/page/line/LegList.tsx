/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { signal } from '@preact/signals';
import type { RecipeStep } from 'datumline';
import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { cutSection, freeSectionName } from './cutSection';
import type { Desk } from './Desk';
import type { StepPath } from './Drawing';
import { describeStep, shownMetres } from './describeStep';
import { LegForm } from './LegForm';
import { NumberField } from './NumberField';
import { newStep, newSteps } from './newStep';
import { PlaceForm } from './PlaceForm';
import { runBeside } from './runBeside';
import { spliceSteps } from './spliceSteps';
import { siblingsOf, stepAt, stepPast } from './stepsIn';
import { surroundingLines } from './surroundingLines';
import { walkSteps } from './walkSteps';
import { unwrapLegs, wrapLegs } from './wrapLegs';

/** Rows on one page: more would make each edit of a long line slow. */
const ROWS = 50;

/** The steps of the drawing in order, each to be opened, changed, moved and taken out. */
export function LegList({ desk }: { readonly desk: Desk }): VNode {
  const page = useMemo(() => signal(0), []);
  const { store, selected } = desk;
  // as it was before a point was taken hold of: with each move of it the list would be made anew
  const rows = [...walkSteps(store.history.value.drawing)];
  const key = selected.value?.join('.');
  const at = rows.findIndex(({ path }) => path.join('.') === key);
  const last = useMemo(() => ({ key: '' as string | undefined }), []);
  if (key !== last.key && at !== -1) page.value = Math.floor(at / ROWS);
  last.key = key;
  const pages = Math.max(1, Math.ceil(rows.length / ROWS));
  const shown = Math.min(page.value, pages - 1);
  return (
    <section class="legs" aria-label="Legs of the line">
      <h3>Legs, in order of travel</h3>
      {rows.length === 0 && <p class="quiet">None yet. Click on the map, or type a position below.</p>}
      {pages > 1 && (
        <p class="pages">
          <button type="button" disabled={shown === 0} onClick={() => (page.value = shown - 1)}>
            Earlier
          </button>
          <span>
            Rows {shown * ROWS + 1} to {Math.min(rows.length, (shown + 1) * ROWS)} of {rows.length}
          </span>
          <button type="button" disabled={shown === pages - 1} onClick={() => (page.value = shown + 1)}>
            Later
          </button>
        </p>
      )}
      <ol start={shown * ROWS + 1}>
        {rows.slice(shown * ROWS, (shown + 1) * ROWS).map(({ path, step }) => (
          <Leg key={path.join('.')} desk={desk} path={path} step={step} open={path.join('.') === key} />
        ))}
      </ol>
      {!desk.fixed.value && <AddLeg desk={desk} />}
    </section>
  );
}

interface LegProps {
  readonly desk: Desk;
  readonly path: StepPath;
  readonly step: RecipeStep;
  readonly open: boolean;
}

function Leg({ desk, path, step, open }: LegProps): VNode {
  const place = desk.store.laid.value?.places.get(path.join('.'));
  const item = useRef<HTMLLIElement>(null);
  useEffect(() => {
    // within the list alone: the page stays where it is, as the map may be what was clicked
    const list = item.current?.parentElement;
    if (!open || !item.current || !list) return;
    const [row, around] = [item.current.getBoundingClientRect(), list.getBoundingClientRect()];
    if (row.top < around.top || row.top > around.bottom - 40) list.scrollTop += row.top - around.top - 20;
  }, [open]);
  return (
    <li ref={item} style={{ marginInlineStart: `${(path.length - 1) * 1.25}rem` }} class={open ? 'open' : ''}>
      <button type="button" class="leg" aria-expanded={open} onClick={() => (desk.selected.value = open ? null : path)}>
        {describeStep(step)}
        {place && place.to > place.from && <span class="quiet"> {shownMetres(place.to - place.from)}</span>}
      </button>
      {open && (
        <div class="leg-open">
          <LegForm desk={desk} step={step} path={path} />
          {!desk.fixed.value && <LegActions desk={desk} step={step} path={path} />}
        </div>
      )}
    </li>
  );
}

function LegActions({ desk, step, path }: Omit<LegProps, 'open'>): VNode {
  const many = useMemo(() => signal({ legs: 1, count: 2 }), []);
  const drawing = desk.store.drawing.value;
  const siblings = siblingsOf(drawing, path);
  const index = path[path.length - 1];
  const from = desk.handles.value.edges.find((edge) => edge.path.join('.') === path.join('.'))?.from;
  const moved = (by: -1 | 1) =>
    desk.edit(
      () => {
        const first = by === 1 ? index : index - 1;
        const swapped = spliceSteps(drawing, [...path.slice(0, -1), first], 2, siblings[first + 1], siblings[first]);
        return { drawing: swapped, path: stepPast(path, by) };
      },
      by === 1 ? 'Moved to later.' : 'Moved to earlier.',
    );
  const name = freeSectionName(drawing);
  const { legs, count } = many.value;
  return (
    <div class="leg-actions">
      {step.call === 'lineTo' && from && (
        <button
          type="button"
          onClick={() =>
            desk.edit(() => {
              const beside = runBeside(drawing, path, { side: 'right', metres: 2 }, from);
              // the first leg takes the place of the start before it
              const began = siblings.length - siblingsOf(beside, [...path.slice(0, -1), 0]).length;
              return { drawing: beside, path: stepPast(path, -began) };
            }, 'Now beside the line drawn, 2 m to its right.')
          }
        >
          Run beside this leg
        </button>
      )}
      {step.call !== 'section' && step.call !== 'provenance' && (
        <button
          type="button"
          onClick={() =>
            desk.edit(
              () => ({ drawing: cutSection(drawing, path, name), path: stepPast(path) }),
              `${name} begins at the end of this leg.`,
            )
          }
        >
          Begin a section after it
        </button>
      )}
      {(step.call === 'laps' || step.call === 'outAndBack') && (
        <button
          type="button"
          onClick={() => desk.edit(() => ({ drawing: unwrapLegs(drawing, path), path }), 'Run once now.')}
        >
          Run it once
        </button>
      )}
      {step.call !== 'start' && (
        <fieldset>
          <legend>Repeat from here</legend>
          <NumberField
            label="So many rows"
            min={1}
            step={1}
            need="must"
            value={legs}
            say={desk.say}
            change={(next) => (many.value = { legs: Math.min(Math.round(next!), siblings.length - index), count })}
          />
          <NumberField
            label="Laps"
            min={1}
            step={1}
            need="must"
            value={count}
            say={desk.say}
            change={(next) => (many.value = { legs, count: Math.round(next!) })}
          />
          <button
            type="button"
            onClick={() =>
              desk.edit(
                () => ({ drawing: wrapLegs(drawing, path, legs, { call: 'laps', count }), path }),
                `${count} laps of ${legs} ${legs === 1 ? 'row' : 'rows'}.`,
              )
            }
          >
            Make laps
          </button>
          <button
            type="button"
            onClick={() =>
              desk.edit(
                () => ({ drawing: wrapLegs(drawing, path, legs, { call: 'outAndBack' }), path }),
                'Out and back on one line.',
              )
            }
          >
            Make it out and back
          </button>
        </fieldset>
      )}
      <button type="button" disabled={index === 0} onClick={() => moved(-1)}>
        Earlier
      </button>
      <button type="button" disabled={index === siblings.length - 1} onClick={() => moved(1)}>
        Later
      </button>
      <button type="button" onClick={() => desk.removeSelected()}>
        Take it out
      </button>
    </div>
  );
}

function AddLeg({ desk }: { readonly desk: Desk }): VNode {
  const kind = useMemo(() => signal<string>('lineTo'), []);
  const { store, selected } = desk;
  const lines = surroundingLines(desk.surroundings.value);
  const add = (make: () => RecipeStep, did: string) => {
    const drawing = store.drawing.value;
    const after = selected.value && stepAt(drawing, selected.value) ? selected.value : [drawing.steps.length - 1];
    const inside = after.length > 0 && ['laps', 'outAndBack'].includes(stepAt(drawing, after)?.call ?? '');
    const path = stepPast(after);
    desk.edit(
      () => ({ drawing: spliceSteps(drawing, path, 0, make()), path }),
      inside ? `${did} It follows all laps.` : did,
    );
  };
  return (
    <>
      <PlaceForm
        class="add"
        legend={`Add a point ${selected.value ? 'after the row that is open' : 'at the end'}`}
        what="A point"
        next="another"
        say={desk.say}
        take={(position) => {
          const begun = [...walkSteps(store.drawing.value)].some(
            ({ step }) => step.call === 'start' || step.call === 'follow',
          );
          add(
            () => (begun ? { call: 'lineTo', position } : { call: 'start', position }),
            `Point added at ${position.join(', ')}.`,
          );
        }}
      >
        <button type="submit">Add point</button>
      </PlaceForm>
      <form
        class="add"
        onSubmit={(event) => {
          event.preventDefault();
          const line = lines[Number(kind.value)];
          if (line) return add(() => ({ call: 'follow', line: line.line }), `Along ${line.name}.`);
          const { label } = newSteps.find(({ call }) => call === kind.value)!;
          add(() => newStep(kind.value, desk), `Added: ${label}. Its numbers are open in the list.`);
        }}
      >
        <label>
          Add something else
          <select value={kind.value} onChange={(event) => (kind.value = event.currentTarget.value)}>
            {newSteps.map(({ call, label }) => (
              <option key={call} value={call}>
                {label}
              </option>
            ))}
            {lines.slice(0, 200).map(({ name }, i) => (
              <option key={`${i}`} value={String(i)}>
                along {name}
              </option>
            ))}
          </select>
        </label>
        <button type="submit">Add</button>
      </form>
    </>
  );
}
