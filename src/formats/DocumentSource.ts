/** A document that is there: text, or its bytes in any form, of this realm or another. */
export type DocumentData = string | ArrayBuffer | ArrayBufferView;

/** What has its bytes on request: a `Blob` or `File`, a `Response` or `Request`. */
export interface ByteHolder {
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** What hands out pieces of a document until it ends: a `ReadableStream`. */
export interface PieceStream {
  getReader(): {
    read(): Promise<{ readonly done: boolean; readonly value?: unknown }>;
    cancel(reason?: unknown): Promise<unknown>;
  };
}

/**
 * A document that is there or still to come: a `Blob`, a `File`, a `Response`, a `ReadableStream`, a stream of Node, anything that
 * can be gone through piece by piece, each piece text or bytes. Known by what it can do, so that one of another realm or a
 * library's own will do.
 */
export type DocumentSource =
  | DocumentData
  | ByteHolder
  | PieceStream
  | AsyncIterable<string | ArrayBuffer | ArrayBufferView>;
