import { assess, InputError } from 'datumline';
import { errorDistribution, planMap, reportHtml, ribbonMap, stripChart, toCsv, toGeoJson } from 'datumline/report';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';
import { inventedAssessment, inventedStreet } from './invented';

const assessment = inventedAssessment();
const pictures = { planMap, stripChart, ribbonMap, errorDistribution };
const withOptions = { ...pictures, reportHtml };
const all = { ...withOptions, toCsv, toGeoJson };

function refusal(call: () => unknown): InputError {
  try {
    call();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return error as InputError;
  }
  throw new Error('nothing was refused');
}

describe.each(Object.entries(all))('%s', (_, render) => {
  const { route } = assessment;
  test.each([
    ['null', null, 'assessment'],
    ['undefined', undefined, 'assessment'],
    ['a number', 5, 'assessment'],
    ['text', 'report', 'assessment'],
    ['an empty object', {}, 'assessment'],
    ['null in an array', [null], 'assessments[0]'],
    ['undefined after an assessment', [assessment, undefined], 'assessments[1]'],
    ['one without bins', { ...assessment, route: { ...route, bins: undefined } }, 'assessment.route.bins'],
    ['one without a line', { ...assessment, route: { ...route, line: null } }, 'assessment.route.line'],
    ['one that has nothing but a schema', { schema: 1 }, 'assessment.route'],
  ])('refuses %s by name', (_, given, argument) => {
    expect(refusal(() => render(given as never))).toMatchObject({ reason: 'wrong-type', argument });
  });

  test('refuses an empty array', () => {
    expect(refusal(() => render([]))).toMatchObject({ reason: 'too-few', argument: 'assessments' });
  });
});

describe.each(Object.entries(withOptions))('%s', (_, render) => {
  test('refuses an option it does not know, and options that are none', () => {
    const given = { colour: 'red' } as never;
    expect(refusal(() => render(assessment, given))).toMatchObject({
      reason: 'unknown-key',
      argument: 'options.colour',
    });
    for (const none of [null, 5, []]) {
      expect(refusal(() => render(assessment, none as never))).toMatchObject({
        reason: 'wrong-type',
        argument: 'options',
      });
    }
  });
});

describe.each(Object.entries(pictures))('%s', (_, draw) => {
  test.each([
    [239, 'out-of-range'],
    [10_001, 'out-of-range'],
    [Number.NaN, 'not-finite'],
    ['600', 'wrong-type'],
    [null, 'wrong-type'],
  ])('refuses a width of %s', (width, reason) => {
    const given = { width } as never;
    expect(refusal(() => draw(assessment, given))).toMatchObject({ reason, argument: 'options.width' });
  });
});

test.each(Object.entries({ planMap, stripChart, errorDistribution }))('%s refuses a section not there', (_, draw) => {
  expect(refusal(() => draw(assessment, { section: 'north' }))).toMatchObject({
    reason: 'missing',
    argument: 'options.section',
  });
});

test('a title that is no text is refused', () => {
  expect(refusal(() => reportHtml(assessment, { title: 5 as never }))).toMatchObject({
    reason: 'wrong-type',
    argument: 'options.title',
  });
});

test.each(Object.entries(withOptions))('%s of recordings none of which could be placed says so', (_, render) => {
  const far = recordingOf(
    [0, 1, 2, 3].map((i): [number, number] => [10 + i / 1000, 10]),
    { name: 'far' },
  );
  const nothing = assess(inventedStreet(), [far]);
  expect(nothing.rows).toEqual([]);
  const read = render(nothing).replace(/<(script|style)[^>]*>.*?<\/\1>/gs, '');
  expect(read).not.toMatch(/NaN|undefined|Infinity|recorded by \.|Offsets of {2}/);
  if (render === stripChart) expect(read).toContain('No recording was placed on the route');
  if (render === reportHtml) expect(new JSDOM(read).window.document.querySelector('#recordings li')).not.toBeNull();
});
