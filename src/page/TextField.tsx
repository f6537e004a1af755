/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';

/** A field whose text is taken when it is left; what is half typed stays, whatever changes around it. */
export function TextField({
  value,
  take,
  id,
  list,
  label,
}: {
  readonly value: string;
  readonly take: (text: string) => void;
  readonly id?: string;
  readonly list?: string;
  /** For those who don't see what stands beside it. */
  readonly label?: string;
}): VNode {
  const typed = useSignal<string | null>(null);
  return (
    <input
      id={id}
      aria-label={label}
      list={list}
      value={typed.value ?? value}
      onInput={({ currentTarget }) => {
        typed.value = currentTarget.value;
      }}
      onChange={({ currentTarget }) => {
        take(currentTarget.value.trim());
        typed.value = null;
      }}
    />
  );
}
