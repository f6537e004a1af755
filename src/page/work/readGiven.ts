import { checkTestFile, InputError, readRecordings } from 'datumline';
import { parseDocument } from './parseDocument';
import type { FileContent, GivenFile } from './Task';
import { unzipFiles } from './unzipFiles';

/** What a file is and what is in it, by its content; never throws for what the file holds. */
export async function readGiven({ path, file, zone }: GivenFile & { readonly zone?: string }): Promise<FileContent> {
  try {
    if (file.size === 0) return fault('It is empty.');
    const data = new Uint8Array(await file.arrayBuffer());
    const archive = unzipFiles(data, path);
    if (archive !== undefined) return { kind: 'archive', files: archive };
    return documentOf(data, path) ?? (await recordingsIn(data, path, zone));
  } catch (error) {
    if (error instanceof InputError && error.argument === 'options.zone') {
      return { kind: 'fault', sentence: 'Its times state no zone: say which one they are in.', asks: 'zone' };
    }
    return fault(sentenceOf(error));
  }
}

const fault = (sentence: string): FileContent => ({ kind: 'fault', sentence, asks: 'nothing' });

function sentenceOf(error: unknown): string {
  const sentence = error instanceof Error ? error.message : String(error);
  // sentences of the library are about its argument, `data`
  const about = sentence.replace(/^data must/, 'It must').replace(/^data line/, 'Line');
  return `${about}${/[.!?]$/.test(about) ? '' : '.'}`;
}

async function recordingsIn(data: Uint8Array, path: string, zone: string | undefined): Promise<FileContent> {
  const bare = zone === undefined ? undefined : await readRecordings(data).catch(() => undefined);
  const read = bare ?? (await readRecordings(data, zone === undefined ? {} : { zone }));
  const stem = path.replace(/^.*\//, '').replace(/(?<=.)(\.[a-z]\w{1,6}){1,2}$/i, '');
  const recordings = read.length === 1 ? [{ ...read[0], name: stem }] : read;
  return { kind: 'recordings', recordings, zone: zone === undefined || bare ? 'stated' : 'given' };
}

/** A document that is no recording: a test, a line, areas, surroundings. */
function documentOf(data: Uint8Array, path: string): FileContent | undefined {
  if (!/^(?:\xef\xbb\xbf)?\s*\{/.test(String.fromCharCode(...data.subarray(0, 64)))) return undefined;
  const text = new TextDecoder().decode(data);
  const document = parseDocument(text, path) as Record<string, unknown>;
  if (Array.isArray(document.runs)) {
    checkTestFile(document);
    return { kind: 'test', test: document };
  }
  if (Array.isArray(document.steps)) return { kind: 'line', text };
  const features = Array.isArray(document.features) ? (document.features as (Feature | null)[]) : [];
  const some = (test: (properties: Record<string, unknown>) => boolean) =>
    features.some((feature) => feature?.properties != null && test(feature.properties));
  if (document.recipe !== undefined || some(({ section }) => section !== undefined)) return { kind: 'line', text };
  if (some(({ kind }) => kind === 'allowed' || kind === 'impossible')) return { kind: 'areas' };
  if (some(({ kind }) => typeof kind === 'string' && ['way', 'house', 'water', 'green'].includes(kind))) {
    return { kind: 'surroundings' };
  }
  return undefined;
}

interface Feature {
  readonly properties?: Record<string, unknown> | null;
}
