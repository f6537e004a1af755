/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { Position } from 'geojson';
import type { ComponentChildren, VNode } from 'preact';

interface PlaceFormProps {
  readonly class: string;
  readonly legend: string;
  /** What the place is for, as it is said where half of it lacks: `A point`. */
  readonly what: string;
  readonly take: (position: Position) => void;
  /** Whether the next place is likely to be typed after this one. */
  readonly next: 'another' | 'none';
  readonly say: (sentence: string) => void;
  /** The buttons, one of them of type `submit`. */
  readonly children: ComponentChildren;
}

/** A longitude and a latitude to be typed. */
export function PlaceForm(props: PlaceFormProps): VNode {
  const { legend, what, take, next, say, children } = props;
  return (
    <form
      class={props.class}
      onSubmit={(event) => {
        event.preventDefault();
        const fields = ['lon', 'lat'].map((name) => event.currentTarget.elements.namedItem(name) as HTMLInputElement);
        if (fields.some(({ value }) => value.trim() === '')) return say(`${what} needs a longitude and a latitude.`);
        take(fields.map(({ value }) => Number(value)));
        if (next === 'none') return;
        for (const field of fields) field.value = '';
        fields[0].focus();
      }}
    >
      <fieldset>
        <legend>{legend}</legend>
        <label>
          Longitude
          <input name="lon" type="number" step="any" min={-360} max={360} />
        </label>
        <label>
          Latitude
          <input name="lat" type="number" step="any" min={-90} max={90} />
        </label>
        {children}
      </fieldset>
    </form>
  );
}
