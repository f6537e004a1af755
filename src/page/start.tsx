/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { signal } from '@preact/signals';
import { render } from 'preact';
import { LineDesk, makeLineStore } from './line';
import './page.css';

render(
  <LineDesk store={makeLineStore()} recordings={signal([])} surroundings={signal(null)} say={() => {}} />,
  document.body,
);
