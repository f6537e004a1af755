import { Readable } from 'node:stream';
import { type Progress, readFit, readRecording, readRecordings } from 'datumline';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { sampleFiles } from '../support/sampleFiles';

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const N = 4000;
const at = (i: number) => ({
  time: new Date(Date.UTC(2031, 0, 1) + 1000 * i).toISOString(),
  lat: (60 + i / 1e5).toFixed(6),
});
const rows = (row: (i: number) => string) => Array.from({ length: N }, (_, i) => row(i)).join('\n');
const long = {
  gpx: `<gpx><trk><trkseg>${rows((i) => `<trkpt lat="${at(i).lat}" lon="5"><time>${at(i).time}</time></trkpt>`)}</trkseg></trk></gpx>`,
  tcx: `<TrainingCenterDatabase><Activities><Activity Sport="Other"><Lap><Track>${rows(
    (i) =>
      `<Trackpoint><Time>${at(i).time}</Time><Position><LatitudeDegrees>${at(i).lat}</LatitudeDegrees><LongitudeDegrees>5</LongitudeDegrees></Position></Trackpoint>`,
  )}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`,
  kml: `<kml><Placemark><Track>${rows((i) => `<when>${at(i).time}</when><coord>5 ${at(i).lat}</coord>`)}</Track></Placemark></kml>`,
  csv: `time,lat,lon\n${rows((i) => `${at(i).time},${at(i).lat},5`)}`,
  nmea: rows((i) => {
    const hour = new Date(Date.UTC(2031, 0, 1) + 1000 * i).toISOString().slice(11, 19).replaceAll(':', '');
    return `$GPRMC,${hour},A,60${(i / 1000).toFixed(4).padStart(7, '0')},N,00500.000,E,,,010131,,`;
  }),
  geojson: JSON.stringify({
    type: 'FeatureCollection',
    features: [0, 1, 2].map(() => ({
      type: 'Feature',
      properties: {},
      geometry: { type: 'LineString', coordinates: Array.from({ length: N }, (_, i) => [5, Number(at(i).lat)]) },
    })),
  }),
};

describe.each(Object.entries(long))('%s', (_, text) => {
  test('what is read with a rest after every step is what is read without, and steps are many', async () => {
    const expected = await readRecordings(text);
    expect(expected[0].lon).toHaveLength(N);
    let now = 0;
    vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000));
    const rests = vi.fn((then: () => void) => queueMicrotask(then));
    vi.stubGlobal('setImmediate', rests);
    expect(await readRecordings(text)).toEqual(expected);
    expect(rests.mock.calls.length).toBeGreaterThanOrEqual(4);
  });

  test('left at every step that is told: rejected with the reason', async () => {
    const whole: Progress[] = [];
    await readRecordings(text, { onProgress: (progress) => whole.push(progress) });
    expect(whole.length).toBeGreaterThanOrEqual(3);
    expect(whole.every(({ what, of }, i) => what === 'read' && of === whole[0].of && of! >= whole[i].done)).toBe(true);
    expect(whole.every(({ done }, i) => done >= (whole[i - 1]?.done ?? 0))).toBe(true);
    for (let when = 1; when <= whole.length; when += 3) {
      const stop = new AbortController();
      let told = 0;
      const onProgress = () => {
        if (++told === when) stop.abort(when);
      };
      await expect(readRecordings(text, { signal: stop.signal, onProgress })).rejects.toBe(when);
      expect(told).toBe(when);
    }
  });
});

test('FIT too, and the reader of one recording', async () => {
  const told: Progress[] = [];
  const recordings = await readFit(sampleFiles.fit, { onProgress: (progress) => told.push(progress) });
  const size = sampleFiles.fit.length;
  expect(told).toEqual([{ done: size, of: size, what: 'read' }]);
  expect(await readFit(sampleFiles.fit)).toEqual(recordings);
  const signal = AbortSignal.abort('no');
  await expect(readFit(sampleFiles.fit, { signal })).rejects.toBe('no');
  await expect(readRecording(long.csv, { signal })).rejects.toBe('no');
});

describe('a stream', () => {
  const pieces = [long.csv.slice(0, 1000), long.csv.slice(1000, 50_000), long.csv.slice(50_000)];

  test('what came of it is told, of a Blob beside its size', async () => {
    const told: Progress[] = [];
    const onProgress = (progress: Progress) => {
      if (progress.what === 'received') told.push(progress);
    };
    await readRecordings(Readable.from(pieces), { onProgress });
    const ends = [1000, 50_000, long.csv.length];
    expect(told.splice(0)).toEqual(ends.map((done) => ({ done, of: null, what: 'received' })));
    await readRecordings(new Blob([long.csv]), { onProgress });
    expect(told).toEqual([{ done: long.csv.length, of: long.csv.length, what: 'received' }]);
  });

  /** One that gives something and then nothing more, and how it was called off. */
  const silent = () => {
    const off: unknown[] = [];
    const stream = new ReadableStream({
      start: (controller) => controller.enqueue(new TextEncoder().encode('lat,lon\n')),
      cancel: (reason) => {
        off.push(reason);
        // the source never says that it heard
        return new Promise(() => {});
      },
    });
    return { stream, off };
  };

  test('that is silent is left at once, and called off with the reason', async () => {
    const { stream, off } = silent();
    const stop = new AbortController();
    const answer = readRecordings(stream, { signal: stop.signal });
    setTimeout(() => stop.abort('waited long enough'), 5);
    await expect(answer).rejects.toBe('waited long enough');
    expect(off).toEqual(['waited long enough']);
  });

  test('of Node that is silent is left at once, and destroyed', async () => {
    const stream = new Readable({ read() {} });
    stream.push('lat,lon\n');
    const answer = readRecordings(stream, { signal: AbortSignal.timeout(5) });
    await expect(answer).rejects.toMatchObject({ name: 'TimeoutError' });
    expect(stream.destroyed).toBe(true);
  });

  test('a generator that waits, and a body that does not come, are left', async () => {
    const never = new Promise<never>(() => {});
    const waiting = (async function* () {
      yield 'lat,lon\n';
      await never;
    })();
    await expect(readRecordings(waiting, { signal: AbortSignal.timeout(5) })).rejects.toMatchObject({
      name: 'TimeoutError',
    });
    const holder = { arrayBuffer: () => never };
    await expect(readRecordings(holder, { signal: AbortSignal.timeout(5) })).rejects.toMatchObject({
      name: 'TimeoutError',
    });
  });

  test('is not begun where the signal is aborted already', async () => {
    const { stream, off } = silent();
    await expect(readRecordings(stream, { signal: AbortSignal.abort('no') })).rejects.toBe('no');
    expect([stream.locked, off]).toEqual([false, []]);
  });

  test('is called off when the listener throws, or what comes is no document', async () => {
    const { stream, off } = silent();
    const fault = new Error('the page is gone');
    const onProgress = () => {
      throw fault;
    };
    await expect(readRecordings(stream, { onProgress })).rejects.toBe(fault);
    expect(off).toEqual([fault]);
  });

  test('leaves no listener behind on a signal that lives on', async () => {
    const stop = new AbortController();
    const added = vi.spyOn(stop.signal, 'addEventListener');
    const removed = vi.spyOn(stop.signal, 'removeEventListener');
    await readRecordings(Readable.from(pieces), { signal: stop.signal });
    expect(removed.mock.calls.length).toBe(added.mock.calls.length);
    expect(added.mock.calls.length).toBe(pieces.length + 1);
  });

  test('whose cancelling fails is refused for its own fault', async () => {
    const endless = new ReadableStream({
      pull: (controller) => controller.enqueue(new Uint8Array(1000)),
      cancel: () => Promise.reject(new Error('not even that')),
    });
    await expect(readRecordings(endless, { maxBytes: 5000 })).rejects.toThrow('data must be at most 5000 bytes');
  });
});
