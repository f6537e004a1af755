/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { VNode } from 'preact';

interface NumberFieldProps {
  readonly label: string;
  readonly unit?: string;
  readonly min?: number;
  readonly step?: number;
  readonly value: number | undefined;
  /** Whether it may be left empty. */
  readonly need: 'must' | 'may';
  /** Called with what was typed once the field is left or Enter pressed; undefined for nothing. */
  readonly change: (value: number | undefined) => void;
  readonly say: (sentence: string) => void;
}

/** A number with its name and unit. What is no number is said, and what was there comes back. */
export function NumberField({ label, unit, min, step, value, need, change, say }: NumberFieldProps): VNode {
  const before = value === undefined ? '' : String(value);
  return (
    <label>
      {label}
      <span class="number">
        <input
          type="number"
          min={min}
          step={step ?? 'any'}
          value={before}
          onChange={(event) => {
            const input = event.currentTarget;
            const text = input.value.trim();
            if (text === before) return;
            if (text === '' && need === 'may' && !input.validity.badInput) return change(undefined);
            const number = Number(text);
            if (text !== '' && Number.isFinite(number) && !(min !== undefined && number < min)) return change(number);
            say(text === '' ? `${label} must be a number.` : `${label} must be at least ${min}, not ${text}.`);
            input.value = before;
          }}
        />
        {unit && <span aria-hidden="true">{unit}</span>}
      </span>
    </label>
  );
}
