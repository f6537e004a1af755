import type { OffsetJoin, RecipeStep } from 'datumline';

/** What a field of a step takes. */
export type FieldKind = 'number' | 'text' | 'choice' | 'position' | 'positions' | 'area' | 'time';

/** One of the values that a field can have, and how it is called; undefined is to say nothing. */
export type Choice = readonly [value: unknown, label: string];

/** One thing that a step says, and how it is asked for. */
export interface StepField {
  readonly key: string;
  readonly label: string;
  readonly kind: FieldKind;
  readonly need: 'must' | 'may';
  readonly unit?: 'm' | '°' | 'year';
  /** The least that a number may be. */
  readonly min?: number;
  /** What one press of an arrow key adds. */
  readonly step?: number;
  /** Of a choice. */
  readonly choices?: readonly Choice[];
}

const must = (key: string, label: string, kind: FieldKind, more: Partial<StepField> = {}): StepField => ({
  ...{ key, label, kind, need: 'must' },
  ...more,
});
const may = (key: string, label: string, kind: FieldKind, more: Partial<StepField> = {}): StepField => ({
  ...{ key, label, kind, need: 'may' },
  ...more,
});

const metres = { unit: 'm', min: 0, step: 0.5 } as const;
const degrees = { unit: '°', step: 1 } as const;
const sides: readonly Choice[] = [
  ['left', 'left'],
  ['right', 'right'],
];
const unsaid: Choice = [undefined, 'not stated'];

/** How a line moved aside goes round the outside of corners. */
export const offsetJoins: readonly OffsetJoin[] = ['round', 'mitre', 'bevel'];

const fields: { readonly [C in RecipeStep['call']]: readonly StepField[] } = {
  start: [must('position', 'Position', 'position'), may('azimuth', 'Direction there', 'number', degrees)],
  lineTo: [
    must('position', 'Position', 'position'),
    may('cornerRadius', 'Radius of the corner here', 'number', metres),
  ],
  lineBy: [must('azimuth', 'Direction', 'number', degrees), must('distance', 'Distance', 'number', metres)],
  arc: [
    must('turn', 'Turns', 'choice', { choices: sides }),
    must('radius', 'Radius', 'number', metres),
    must('sweep', 'Angle turned', 'number', { ...degrees, min: 0 }),
  ],
  follow: [
    may('metres', 'Distance beside the line', 'number', metres),
    may('side', 'Side of the line', 'choice', { choices: [unsaid, ...sides] }),
    may('from', 'From, along the line', 'number', metres),
    may('to', 'To, along the line', 'number', metres),
    may('reverse', 'Direction of travel', 'choice', {
      choices: [
        [undefined, 'as the line is drawn'],
        [true, 'against it'],
      ],
    }),
    must('line', 'Points of the line, one a row: longitude latitude', 'positions'),
  ],
  moveOver: [
    must('side', 'To the', 'choice', { choices: sides }),
    must('metres', 'Distance to the side', 'number', metres),
    must('over', 'While so many metres go by', 'number', metres),
  ],
  uTurn: [must('side', 'To the', 'choice', { choices: sides }), must('width', 'Width of the turn', 'number', metres)],
  section: [
    must('name', 'Name of the section', 'text'),
    may('halfWidth', 'Half the width of its corridor', 'number', metres),
    may('environment', 'Sky and ground there', 'text'),
    may('from', 'From, along the whole line', 'number', metres),
    may('to', 'To, along the whole line', 'number', metres),
    may(
      'inside',
      'Or all that lies in this area: corners, one a row, an empty row before a hole, --- before another area',
      'area',
    ),
  ],
  endSection: [],
  mark: [
    must('name', 'Name of the mark', 'text'),
    may('time', 'Passed at (date and time with its zone)', 'time'),
    may('near', 'At the place of the line nearest to', 'position'),
  ],
  laps: [must('count', 'Number of laps', 'number', { min: 1, step: 1 })],
  outAndBack: [
    may('returnBeside.metres', 'Way back so far beside the way out', 'number', metres),
    may('returnBeside.side', 'On which side, seen on the way out', 'choice', { choices: [unsaid, ...sides] }),
  ],
  provenance: [
    may('lateral95', 'Uncertainty across the line (95 %)', 'number', metres),
    may('source', 'Drawn from', 'text'),
    may('date', 'Surveyed or photographed', 'text'),
    may('licence', 'Terms of use', 'text'),
    may('frame', 'Reference frame', 'text'),
    may('epoch', 'Epoch of the frame', 'number', { unit: 'year' }),
  ],
  offset: [
    must('metres', 'Distance beside the other line', 'number', metres),
    must('side', 'Side of the other line', 'choice', { choices: sides }),
    may('join', 'Outside of corners', 'choice', {
      choices: [[undefined, 'not stated: round'], ...offsetJoins.map((join) => [join, join] as const)],
    }),
  ],
  slice: [
    must('from', 'From, along the other line', 'number', metres),
    must('to', 'To, along the other line', 'number', metres),
  ],
  reverse: [],
  join: [
    may('gap', 'Where the second begins away from the end of the first', 'choice', {
      choices: [
        [undefined, 'not stated: a straight piece joins them'],
        ['line', 'a straight piece joins them'],
        ['refuse', 'they are no line'],
      ],
    }),
  ],
};

/** What a step says, field by field, in the order in which it is asked for. */
export function stepFields(step: RecipeStep): readonly StepField[] {
  return fields[step.call];
}

/** What a field of a step holds; undefined where it says nothing. */
export function fieldOf(step: RecipeStep, key: string): unknown {
  return key.split('.').reduce<unknown>((value, part) => (value as Record<string, unknown> | undefined)?.[part], step);
}

/**
 * The step with another value in a field, or without the field. A side and its metres come and go together where one says
 * nothing without the other.
 */
export function withField(step: RecipeStep, key: string, value: unknown): RecipeStep {
  const [outer, inner] = key.split('.');
  const changed: Record<string, unknown> = { ...step };
  if (inner !== undefined) {
    const { returnBeside = { side: 'left', metres: 4 } } = step as { returnBeside?: object };
    changed[outer] = value === undefined ? undefined : { ...returnBeside, [inner]: value };
  } else {
    changed[outer] = value;
    if (step.call === 'follow') {
      if (key === 'metres' && value !== undefined) changed.side = value === 0 ? undefined : (changed.side ?? 'right');
      if (key === 'side') changed.metres = value === undefined ? undefined : changed.metres;
      if (key === 'metres' && (value === undefined || value === 0)) changed.side = changed.metres = undefined;
    }
  }
  return Object.fromEntries(Object.entries(changed).filter(([, one]) => one !== undefined)) as unknown as RecipeStep;
}
