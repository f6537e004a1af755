/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { VNode } from 'preact';

/** A button that asks for a file. */
export function FileButton({
  label,
  accept,
  take,
}: {
  readonly label: string;
  readonly accept: string;
  readonly take: (file: File | undefined) => void;
}): VNode {
  return (
    <label class="file-button">
      {label}
      <input
        type="file"
        accept={accept}
        onChange={(event) => {
          take(event.currentTarget.files?.[0]);
          event.currentTarget.value = '';
        }}
      />
    </label>
  );
}
