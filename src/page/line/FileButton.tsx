/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { VNode } from 'preact';

/** A button that asks for a file; of a line, unless it says otherwise. */
export function FileButton({
  label,
  accept = '.json,.geojson,.gpx,.kml',
  take,
}: {
  readonly label: string;
  readonly accept?: string;
  readonly take: (file: File) => void;
}): VNode {
  return (
    <label class="file-button">
      {label}
      <input
        type="file"
        accept={accept}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          if (file) take(file);
          event.currentTarget.value = '';
        }}
      />
    </label>
  );
}
