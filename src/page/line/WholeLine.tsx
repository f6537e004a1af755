/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { RouteOptions } from 'datumline';
import type { VNode } from 'preact';
import type { Desk } from './Desk';
import { NumberField } from './NumberField';
import { RemakeLine } from './RemakeLine';

/** Every option of a recipe but its name: none can be forgotten. */
export const optionFields: {
  readonly [K in Exclude<keyof RouteOptions, 'name'>]-?: { readonly label: string; readonly step: number };
} = {
  cornerRadius: { label: 'Radius of every corner that has none of its own', step: 0.5 },
  halfWidth: { label: 'Half the width of the corridor where a section states none', step: 0.5 },
  lateral95: { label: 'Uncertainty across the line (95 %) where no source states another', step: 0.1 },
  maxSpacing: { label: 'Longest edge of the line as built', step: 1 },
  maxSagitta: { label: 'How far a chord may lie inside its arc', step: 0.01 },
};
const keys = Object.keys(optionFields) as (keyof typeof optionFields)[];

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
      {!desk.fixed.value && (
        <>
          <label>
            Name of the line
            <input
              type="text"
              value={options.name ?? ''}
              onChange={(event) => change('name', 'Name', event.currentTarget.value || undefined)}
            />
          </label>
          {keys.map((key) => (
            <NumberField
              key={key}
              label={optionFields[key].label}
              unit="m"
              min={0}
              step={optionFields[key].step}
              value={options[key]}
              need="may"
              change={(value) => change(key, optionFields[key].label, value)}
              say={desk.say}
            />
          ))}
        </>
      )}
      <RemakeLine desk={desk} />
    </details>
  );
}
