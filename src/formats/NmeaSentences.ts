import { nmeaChecksum } from './nmeaChecksum';

/** No sentence that is read has a field of interest beyond. */
const FIELDS = 16;

const isUpper = (code: number) => code >= 65 && code <= 90;

/** Goes through the lines of an NMEA 0183 log, holding nothing but where the fields of the present one stand. */
export class NmeaSentences {
  /** Number of the present line, from 1. */
  line = 0;
  /** Where the next line begins. */
  at = 0;
  /** Talker and kind of the present sentence: `GPRMC`. */
  address = '';
  /** `none`: the sentence has no checksum. */
  checksum: 'right' | 'wrong' | 'none' = 'none';

  readonly #text: string;
  /** Where each field of the present sentence ends. */
  readonly #ends = new Int32Array(FIELDS);
  #begin = 0;
  #count = 0;

  constructor(text: string) {
    this.#text = text;
  }

  /**
   * Moves on to the next line. `foreign`: a sentence of a maker's own or of another kind, of which nothing about positions is
   * lost; `noise`: no sentence at all.
   */
  next(): 'sentence' | 'blank' | 'foreign' | 'noise' | 'end' {
    const text = this.#text;
    const from = this.at;
    if (from >= text.length) return 'end';
    // a logger may put its own words before the sentence; two sentences may have run together
    let start = -1;
    let to = from;
    for (; to < text.length; to++) {
      const code = text.charCodeAt(to);
      if (code === 36) start = to;
      else if (code === 10 || code === 13) break;
    }
    this.at = text.charCodeAt(to) === 13 && text.charCodeAt(to + 1) === 10 ? to + 2 : to + 1;
    this.line++;
    if (start >= 0 && this.#parse(start, to)) return 'sentence';
    const row = text.slice(from, to);
    if (row.trim() === '') return 'blank';
    return /^!|\$P/.test(row) ? 'foreign' : 'noise';
  }

  /** A field of the present sentence, the first after its address being 0; empty where it has none. */
  field(index: number): string {
    if (index >= this.#count) return '';
    return this.#text.slice(index === 0 ? this.#begin : this.#ends[index - 1] + 1, this.#ends[index]);
  }

  /** Takes what stands from `$` to the end of the line apart; false where it is no sentence. */
  #parse(start: number, lineEnd: number): boolean {
    const text = this.#text;
    let end = lineEnd;
    // blanks are rare, and those beyond ASCII too
    const last = text.charCodeAt(end - 1);
    if (last <= 32 || last >= 127) end = start + text.slice(start, end).trimEnd().length;
    const begin = start + 7;
    if (begin > end || text.charCodeAt(begin - 1) !== 44) return false;
    for (let at = start + 1; at < begin - 1; at++) if (!isUpper(text.charCodeAt(at))) return false;
    let count = 0;
    let at = begin;
    for (; at < end; at++) {
      const code = text.charCodeAt(at);
      if (code === 42) break;
      if (code === 44 && count < FIELDS) this.#ends[count++] = at;
    }
    if (count < FIELDS) this.#ends[count++] = at;
    if (at < end) {
      const stated = text.slice(at + 1, end);
      if (!/^[0-9A-Fa-f]{2}$/.test(stated)) return false;
      this.checksum = Number.parseInt(stated, 16) === nmeaChecksum(text, start + 1, at) ? 'right' : 'wrong';
    } else this.checksum = 'none';
    this.address = text.slice(start + 1, begin - 1);
    this.#begin = begin;
    this.#count = count;
    return true;
  }
}
