import { type Content, element } from './element';
import { ScrollRegion } from './ScrollRegion';

/** A row of a table: its heading and its cells. */
export interface TableRow {
  readonly heading: Content;
  readonly cells: readonly Content[];
  /** Metres along-track it is about: pointing at the row shows them in the pictures. */
  readonly stretch?: readonly [from: number, to: number];
  readonly kind?: 'total';
}

/** A table that scrolls by itself where the screen is narrower than it. */
export function DataTable(properties: {
  readonly caption: string;
  readonly columns: readonly Content[];
  readonly rows: readonly TableRow[];
}): Content {
  const { caption, columns, rows } = properties;
  return (
    <ScrollRegion label={caption}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th scope="col">{column}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ heading, cells, stretch, kind }) => (
            <tr class={kind} data-from={stretch?.[0].toFixed(1)} data-to={stretch?.[1].toFixed(1)}>
              <th scope="row">{heading}</th>
              {cells.map((cell) => (
                <td>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}
