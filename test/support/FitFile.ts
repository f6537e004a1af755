import { fitCrc } from './fitCrc';

/** One field of a message: number, size in bytes, base type, value (`undefined` writes the mark for no value). */
export interface FitField {
  readonly number: number;
  readonly type: 'enum' | 'uint8' | 'uint16' | 'uint32' | 'sint32' | 'string';
  readonly value: number | string | undefined;
}

const baseTypes = { enum: 0x00, uint8: 0x02, uint16: 0x84, uint32: 0x86, sint32: 0x85, string: 0x07 } as const;
const sizes = { enum: 1, uint8: 1, uint16: 2, uint32: 4, sint32: 4, string: 8 } as const;
const marks = { enum: 0xff, uint8: 0xff, uint16: 0xffff, uint32: 0xffffffff, sint32: 0x7fffffff, string: 0 } as const;

/** Seconds from 1970 to 1989-12-31T00:00Z, by the calendar: 19 years of 365 days, 5 leap days, 364 days. */
export const FIT_EPOCH = (19 * 365 + 5 + 364) * 86_400;

/** Semicircles of an angle in degrees. */
export const semicircles = (degrees: number) => Math.round((degrees / 180) * 2 ** 31);

/** Writes FIT files to test with, after the protocol's public description; shares no code with the reader. */
export class FitFile {
  readonly #body: number[] = [];
  readonly #definitions = new Map<number, string>();

  constructor(
    readonly headerSize: 12 | 14 = 14,
    readonly littleEndian = true,
  ) {}

  /** A message, its definition written before it when it is not the present one of the local number. */
  message(global: number, fields: readonly FitField[], local = 0, developer: readonly number[] = []): this {
    this.#define(global, fields, local, developer.length);
    this.#body.push(local);
    for (const field of fields) this.#value(field);
    this.#body.push(...developer);
    return this;
  }

  /** A message with a compressed timestamp: five bits in its header, no timestamp field. Local number 0 to 3. */
  compressed(global: number, seconds: number, fields: readonly FitField[], local = 1): this {
    this.#define(global, fields, local);
    this.#body.push(0x80 | (local << 5) | (seconds & 31));
    for (const field of fields) this.#value(field);
    return this;
  }

  bytes(): Uint8Array {
    const size = this.#body.length;
    const header = [this.headerSize, 0x20, 0x54, 0x08, ...this.#integer(size, 4, true), 0x2e, 0x46, 0x49, 0x54];
    if (this.headerSize === 14) header.push(...this.#integer(fitCrc(header), 2, true));
    const all = [...header, ...this.#body];
    return Uint8Array.from([...all, ...this.#integer(fitCrc(all), 2, true)]);
  }

  /** With `developer` bytes, a field of a developer's own ends the message: bit 5 of the header says so. */
  #define(global: number, fields: readonly FitField[], local: number, developer = 0): void {
    const shape = `${global}:${fields.map(({ number, type }) => `${number} ${type}`).join()}:${developer}`;
    if (this.#definitions.get(local) === shape) return;
    this.#definitions.set(local, shape);
    this.#body.push(
      0x40 | (developer > 0 ? 0x20 : 0) | local,
      0,
      this.littleEndian ? 0 : 1,
      ...this.#integer(global, 2),
      fields.length,
    );
    for (const { number, type } of fields) this.#body.push(number, sizes[type], baseTypes[type]);
    if (developer > 0) this.#body.push(1, 0, developer, 0);
  }

  #value({ type, value }: FitField): void {
    if (typeof value === 'string') {
      for (let i = 0; i < 8; i++) this.#body.push(i < value.length && i < 7 ? value.charCodeAt(i) : 0);
    } else this.#body.push(...this.#integer(value ?? marks[type], sizes[type]));
  }

  #integer(value: number, size: number, littleEndian = this.littleEndian): number[] {
    const bytes: number[] = [];
    let rest = value < 0 ? value + 256 ** size : value;
    for (let i = 0; i < size; i++) {
      bytes.push(rest % 256);
      rest = Math.floor(rest / 256);
    }
    return littleEndian ? bytes : bytes.reverse();
  }
}

/** Fields of a `record` message: seconds since 1970, degrees, metres. */
export function recordFields(seconds: number, lat?: number, lon?: number, height?: number): FitField[] {
  return [
    { number: 253, type: 'uint32', value: seconds - FIT_EPOCH },
    { number: 0, type: 'sint32', value: lat === undefined ? undefined : semicircles(lat) },
    { number: 1, type: 'sint32', value: lon === undefined ? undefined : semicircles(lon) },
    { number: 2, type: 'uint16', value: height === undefined ? undefined : Math.round((height + 500) * 5) },
    { number: 31, type: 'uint8', value: 3 },
  ];
}

/** Fields of a `timer` event. 0 starts, 4 stops. */
export function timerFields(seconds: number, type: 0 | 4): FitField[] {
  return [
    { number: 253, type: 'uint32', value: seconds - FIT_EPOCH },
    { number: 0, type: 'enum', value: 0 },
    { number: 1, type: 'enum', value: type },
  ];
}
