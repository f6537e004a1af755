import { Markup } from './Markup';
import type { Picture } from './Picture';
import { plainText } from './plainText';
import type { ReportModel, Strand } from './reportModel';

/** Metres from one readable place to the next; more on routes so long that the file would grow without use. */
const STEP = 5;
const READABLE = 3000;

/** Collects where places lie in each picture, for the script that points at one place in all of them. */
export class WalkData {
  readonly #pictures: unknown[] = [];

  /** Registers a picture; its number is what the script finds it by. */
  add({ walk }: Picture): number | undefined {
    return walk && this.#pictures.push(walk) - 1;
  }

  /** As JSON that can stand in a script element: nothing in it closes the element or opens a comment. */
  toMarkup(model: ReportModel): Markup {
    const { route, receivers, strands, sections } = model;
    const step = Math.max(STEP, route.length / READABLE);
    const data = {
      step,
      pictures: this.#pictures,
      sections: sections.map(({ name, from, to }) => [plainText(name), from, to]),
      groups: receivers.map((receiver) => strands.flatMap((strand, i) => (strand.receiver === receiver ? [i] : []))),
      series: strands.map((strand) => sampled(strand, route.length, step)),
    };
    const text = JSON.stringify(data).replace(
      /[<>&\u2028\u2029]/g,
      (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
    );
    return new Markup(`<script type="application/json" id="walk-data">${text}</script>`);
  }
}

function sampled({ recording: { offsets }, assessment }: Strand, length: number, step: number): (number | null)[] {
  const { bins } = assessment.route;
  const values: (number | null)[] = [];
  let bin = 0;
  for (let s = 0; s <= length; s += step) {
    while (bin + 2 < bins.length && bins[bin + 1] <= s) bin++;
    const offset = offsets[bin] ?? null;
    values.push(offset === null ? null : Math.round(offset * 10) / 10);
  }
  return values;
}
