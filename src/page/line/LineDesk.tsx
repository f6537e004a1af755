/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { ReadonlySignal, Signal } from '@preact/signals';
import type { Recording } from 'datumline';
import type { GeoJSON } from 'geojson';
import type { VNode } from 'preact';
import type { LineStore } from './LineStore';

/** The map and the list of legs. */
export function LineDesk({
  store,
}: {
  readonly store: LineStore;
  readonly recordings: ReadonlySignal<readonly Recording[]>;
  readonly surroundings: Signal<GeoJSON | null>;
  readonly say: (sentence: string) => void;
}): VNode {
  const route = store.route.value;
  return <p>{route === null ? 'No line yet.' : `The line is ${Math.round(route.length)} m long.`}</p>;
}
