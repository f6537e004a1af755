/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { direct, InputError, inverse, type RecipeStep } from 'datumline';
import type { MultiPolygon, Polygon, Position } from 'geojson';
import type { VNode } from 'preact';
import type { Desk } from './Desk';
import type { StepOf, StepPath } from './Drawing';
import { describeStep, shownMetres } from './describeStep';
import { NumberField } from './NumberField';
import { areaIn, areaRows, positionsIn, rowsOf } from './positionRows';
import { spliceSteps } from './spliceSteps';
import { fieldOf, type StepField, stepFields, withField } from './stepFields';

/** A field of more rows than this makes each key press slow. */
const MOST_ROWS = 5000;

/** Everything that a step says, to be changed. */
export function LegForm({
  desk,
  step,
  path,
}: {
  readonly desk: Desk;
  readonly step: RecipeStep;
  readonly path: StepPath;
}): VNode {
  const change = (key: string, label: string, value: unknown, said: string) =>
    desk.edit(
      () => ({ drawing: spliceSteps(desk.store.drawing.value, path, 1, withField(step, key, value)) }),
      value === undefined ? `${label}: no longer stated.` : `${label}: ${said}.`,
    );
  return (
    <div class="leg-fields">
      {stepFields(step).map((field) => (
        <Field key={field.key} field={field} value={fieldOf(step, field.key)} change={change} desk={desk} />
      ))}
      {step.call === 'lineTo' && <ByBearing desk={desk} path={path} step={step} />}
      {step.call === 'provenance' && step.drafted && (
        <p>Drafted from {step.drafted.recordings.length} recordings: correct it before you judge them by it.</p>
      )}
      {stepFields(step).length === 0 && <p>{describeStep(step)}.</p>}
    </div>
  );
}

interface FieldProps {
  readonly field: StepField;
  readonly value: unknown;
  readonly desk: Desk;
  readonly change: (key: string, label: string, value: unknown, said: string) => void;
}

function Field({ field, value, change, desk }: FieldProps): VNode {
  const { key, label, kind, need } = field;
  const take = (next: unknown, said = String(next)) => change(key, label, next, said);
  /** What reads a text, or says why it can't and leaves what was. */
  const read = (input: HTMLInputElement | HTMLTextAreaElement, make: (text: string) => unknown, before: string) => {
    try {
      take(make(input.value), 'changed');
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      desk.say(error.message);
      input.value = before;
    }
  };
  switch (kind) {
    case 'number':
      return (
        <NumberField
          label={label}
          unit={field.unit}
          min={field.min}
          step={field.step}
          value={value as number | undefined}
          need={need}
          change={(next) => take(next, `${next}${field.unit === 'm' ? ' m' : field.unit === '°' ? '°' : ''}`)}
          say={desk.say}
        />
      );
    case 'position': {
      const position = value as Position | undefined;
      const put = (index: 0 | 1, next: number | undefined) => {
        if (next === undefined) return need === 'may' ? take(undefined) : undefined;
        const [longitude, latitude, ...rest] = position ?? desk.middle.value;
        take(
          index === 0 ? [next, latitude, ...rest] : [longitude, next, ...rest],
          `${['longitude', 'latitude'][index]} ${next}`,
        );
      };
      return (
        <fieldset>
          <legend>{label}</legend>
          <NumberField
            label="Longitude"
            unit="°"
            step={0.00001}
            value={position?.[0]}
            need={need}
            change={(next) => put(0, next)}
            say={desk.say}
          />
          <NumberField
            label="Latitude"
            unit="°"
            step={0.00001}
            value={position?.[1]}
            need={need}
            change={(next) => put(1, next)}
            say={desk.say}
          />
        </fieldset>
      );
    }
    case 'choice': {
      const choices = field.choices!;
      return (
        <label>
          {label}
          <select
            value={choices.findIndex(([one]) => one === value)}
            onChange={({ currentTarget }) => take(...choices[Number(currentTarget.value)])}
          >
            {choices.map(([, name], i) => (
              <option key={name} value={i}>
                {name}
              </option>
            ))}
          </select>
        </label>
      );
    }
    case 'text':
      return (
        <label>
          {label}
          <input
            type="text"
            value={(value as string | undefined) ?? ''}
            onChange={(event) => {
              const input = event.currentTarget;
              if (input.value !== '' || need === 'may') return take(input.value || undefined, `“${input.value}”`);
              desk.say(`${label} is needed.`);
              input.value = value as string;
            }}
          />
        </label>
      );
    case 'time': {
      const time = new Date(value as number);
      // a recipe may state a time that is none of the calendar
      const shown = Number.isFinite(time.getTime()) ? time.toISOString() : String(value ?? '');
      return (
        <label>
          {label}
          <input
            type="text"
            placeholder="2024-06-01T09:30:00Z"
            value={shown}
            onChange={(event) => read(event.currentTarget, timeIn, shown)}
          />
        </label>
      );
    }
    case 'positions': {
      const points = value as Position[];
      if (points.length > MOST_ROWS)
        return <p class="quiet">A line of {points.length} points: too many to list here.</p>;
      const rows = rowsOf(points);
      return (
        <label class="wide">
          {label}
          <textarea rows={4} value={rows} onChange={(event) => read(event.currentTarget, positionsIn, rows)} />
        </label>
      );
    }
    case 'area': {
      const rows = value === undefined ? '' : areaRows(value as Polygon | MultiPolygon);
      return (
        <label class="wide">
          {label}
          <textarea rows={3} value={rows} onChange={(event) => read(event.currentTarget, areaIn, rows)} />
        </label>
      );
    }
  }
}

/** Milliseconds since the Unix epoch; a time without its zone is none. */
function timeIn(text: string): number | undefined {
  if (text.trim() === '') return undefined;
  const time = /(Z|[+-]\d\d:?\d\d)$/i.test(text.trim()) ? Date.parse(text.trim()) : Number.NaN;
  if (Number.isFinite(time)) return time;
  const rule = 'a date and time with its zone, such as 2024-06-01T09:30:00Z';
  throw new InputError({ reason: 'unreadable', argument: 'time', rule, value: text });
}

/** Where a straight leg ends, said from where it begins. */
function ByBearing({
  desk,
  path,
  step,
}: {
  readonly desk: Desk;
  readonly path: StepPath;
  readonly step: StepOf<'lineTo'>;
}): VNode | null {
  const key = path.join('.');
  const from = desk.handles.value.edges.find((edge) => edge.path.join('.') === key)?.from;
  if (from === undefined) return null;
  const { distance, initialAzimuth } = inverse(from, step.position);
  const put = (azimuth: number, metres: number, said: string) =>
    desk.edit(() => {
      const [longitude, latitude] = direct(from, azimuth, metres).position;
      const end = [longitude, latitude].map((degrees) => Math.round(degrees * 1e9) / 1e9);
      const moved = { ...step, position: [...end, ...step.position.slice(2)] };
      return { drawing: spliceSteps(desk.store.drawing.value, path, 1, moved) };
    }, said);
  return (
    <fieldset>
      <legend>Or from the point before</legend>
      <NumberField
        label="Distance"
        unit="m"
        min={0}
        step={0.5}
        value={Number(distance.toFixed(3))}
        need="must"
        change={(next) => put(initialAzimuth, next!, `${shownMetres(next!)} from the point before.`)}
        say={desk.say}
      />
      <NumberField
        label="Direction"
        unit="°"
        step={1}
        value={Number(initialAzimuth.toFixed(4))}
        need="must"
        change={(next) => put(next!, distance, `Towards ${next}°.`)}
        say={desk.say}
      />
    </fieldset>
  );
}
