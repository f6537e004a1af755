/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { RouteOptions } from 'datumline';
import type { VNode } from 'preact';
import type { Desk } from './Desk';
import { NumberField } from './NumberField';

const numbers: readonly {
  readonly key: Exclude<keyof RouteOptions, 'name'>;
  readonly label: string;
  readonly step: number;
}[] = [
  { key: 'cornerRadius', label: 'Radius of every corner that has none of its own', step: 0.5 },
  { key: 'halfWidth', label: 'Half the width of the corridor where a section states none', step: 0.5 },
  { key: 'lateral95', label: 'Uncertainty across the line (95 %) where no source states another', step: 0.1 },
  { key: 'maxSpacing', label: 'Longest edge of the line as built', step: 1 },
  { key: 'maxSagitta', label: 'How far a chord may lie inside its arc', step: 0.01 },
];

/** What is said of the line as a whole. */
export function WholeLine({ desk }: { readonly desk: Desk }): VNode {
  const { options } = desk.store.drawing.value;
  const change = (key: keyof RouteOptions, label: string, value: number | string | undefined) =>
    desk.edit(
      () => {
        const { [key]: _, ...rest } = options;
        const drawing = desk.store.drawing.value;
        return { drawing: { ...drawing, options: value === undefined ? rest : { ...options, [key]: value } } };
      },
      value === undefined ? `${label}: no longer stated.` : `${label}: ${value}.`,
    );
  return (
    <details class="whole-line">
      <summary>The line as a whole</summary>
      <label>
        Name of the line
        <input
          type="text"
          value={options.name ?? ''}
          onChange={(event) => change('name', 'Name', event.currentTarget.value || undefined)}
        />
      </label>
      {numbers.map(({ key, label, step }) => (
        <NumberField
          key={key}
          label={label}
          unit="m"
          min={0}
          step={step}
          value={options[key]}
          need="may"
          change={(value) => change(key, label, value)}
          say={desk.say}
        />
      ))}
    </details>
  );
}
