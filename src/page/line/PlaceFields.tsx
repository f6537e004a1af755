/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { VNode } from 'preact';

/** Fields of a form for a position, `lon` and `lat`. */
export function PlaceFields(): VNode {
  return (
    <>
      <label>
        Longitude
        <input name="lon" type="number" step="any" min={-360} max={360} />
      </label>
      <label>
        Latitude
        <input name="lat" type="number" step="any" min={-90} max={90} />
      </label>
    </>
  );
}
