/** A shape that data messages follow: where each field of it lies, from the message's first byte after its header. */
interface Definition {
  readonly kind: number;
  readonly littleEndian: boolean;
  readonly size: number;
  readonly fields: ReadonlyMap<number, { readonly at: number; readonly size: number }>;
  /** Bytes of a timestamp that comes first: a message with a compressed one leaves them out. */
  readonly timeFirst: number;
}

/** The field that holds the time in every kind of message. */
const TIMESTAMP = 253;

/** The mark for no value of a signed field of four bytes. */
const NO_VALUE = 0x7fffffff;

/**
 * Goes through the messages of one FIT file from its first to its last whole one, holding nothing of those behind.
 *
 * @see The public description of the FIT protocol: definition messages, data messages, compressed timestamps
 */
export class FitMessages {
  /** The number that the public profile gives this kind of message. */
  kind = -1;
  /** Seconds by the protocol's own count; NaN where the message has no time. */
  time = Number.NaN;
  /** Where the last whole message ends. */
  end: number;

  readonly #view: DataView;
  readonly #definitions = new Map<number, Definition>();
  #definition: Definition | undefined;
  #fieldsFrom = 0;
  #lastTime = Number.NaN;

  /**
   * @param bytes - the file without what follows its messages
   * @param header - how many bytes come before the first
   */
  constructor(bytes: Uint8Array, header: number) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.end = header;
  }

  /** Moves on to the next data message; false when there is no further whole one. */
  next(): boolean {
    const view = this.#view;
    for (let at = this.end; at < view.byteLength; at = this.end) {
      const head = view.getUint8(at);
      const compressed = (head & 0x80) !== 0;
      if (!compressed && (head & 0x40) !== 0) {
        if (!this.#define(at, head)) return false;
        continue;
      }
      const definition = this.#definitions.get(compressed ? (head >> 5) & 3 : head & 15);
      if (!definition) return false;
      const left = compressed ? definition.timeFirst : 0;
      const end = at + 1 + definition.size - left;
      if (end > view.byteLength) return false;
      this.#definition = definition;
      this.#fieldsFrom = at + 1 - left;
      this.end = end;
      this.kind = definition.kind;
      // five bits that count on from the last whole time, over its 32 seconds
      if (compressed) this.time = this.#lastTime + (((head & 31) - this.#lastTime) & 31);
      else this.time = this.unsigned(TIMESTAMP, 4);
      if (!Number.isNaN(this.time)) this.#lastTime = this.time;
      return true;
    }
    return false;
  }

  /** An unsigned field; NaN where the message has none of that size, or the protocol's mark for no value. */
  unsigned(field: number, size: 1 | 2 | 4): number {
    const at = this.#find(field, size);
    if (at < 0) return Number.NaN;
    const view = this.#view;
    const { littleEndian } = this.#definition!;
    const value =
      size === 1 ? view.getUint8(at) : size === 2 ? view.getUint16(at, littleEndian) : view.getUint32(at, littleEndian);
    return value === 2 ** (8 * size) - 1 ? Number.NaN : value;
  }

  /** A signed field of four bytes; NaN as for {@link unsigned}. */
  signed(field: number): number {
    const at = this.#find(field, 4);
    const value = at < 0 ? NO_VALUE : this.#view.getInt32(at, this.#definition!.littleEndian);
    return value === NO_VALUE ? Number.NaN : value;
  }

  #find(field: number, size: number): number {
    const place = this.#definition!.fields.get(field);
    return place?.size === size ? this.#fieldsFrom + place.at : -1;
  }

  /** Takes the definition at a byte; false where it is not whole. */
  #define(at: number, head: number): boolean {
    const view = this.#view;
    const least = at + 6;
    if (least > view.byteLength) return false;
    const count = view.getUint8(at + 5);
    let next = least + count * 3;
    if (next > view.byteLength) return false;
    const fields = new Map<number, { readonly at: number; readonly size: number }>();
    let size = 0;
    for (let i = least; i < next; i += 3) {
      const field = view.getUint8(i);
      const bytes = view.getUint8(i + 1);
      if (!fields.has(field)) fields.set(field, { at: size, size: bytes });
      size += bytes;
    }
    // fields of a developer's own come last, and are passed over
    if ((head & 0x20) !== 0) {
      if (next >= view.byteLength) return false;
      const more = next + 1;
      next = more + view.getUint8(next) * 3;
      if (next > view.byteLength) return false;
      for (let i = more; i < next; i += 3) size += view.getUint8(i + 1);
    }
    const littleEndian = view.getUint8(at + 2) === 0;
    const first = fields.get(TIMESTAMP);
    this.#definitions.set(head & 15, {
      kind: view.getUint16(at + 3, littleEndian),
      littleEndian,
      size,
      fields,
      timeFirst: first?.at === 0 ? first.size : 0,
    });
    this.end = next;
    return true;
  }
}
