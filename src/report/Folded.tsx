import { type Content, element } from './element';

/** What unfolds when asked for; on paper it is unfolded unless it is for the screen alone. */
export function Folded(properties: {
  readonly summary: string;
  readonly on?: 'screen';
  readonly children?: Content;
}): Content {
  const { summary, on, children } = properties;
  return (
    <details class={on === 'screen' ? 'on-screen' : undefined}>
      <summary>{summary}</summary>
      {children}
    </details>
  );
}
