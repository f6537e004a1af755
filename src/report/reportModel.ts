import {
  type AssessedRecording,
  type AssessedSection,
  type Assessment,
  type AssessmentRow,
  checkAssessment,
  type Excursion,
} from '../assess';
import { InputError, type ReceiverLook, type ReceiverLooks } from '../model';
import type { TestSummary } from '../runs';
import { receiverSlots } from './receiverSlots';

/** One assessment, or several of the same route: one a run. */
export type Assessments = Assessment | Iterable<Assessment>;

/** One way of recording, told apart by colour, dash and marker in every picture. */
export interface Receiver {
  readonly label: string;
  /** Which of the looks is its own, by its name; what `look` states comes before it. */
  readonly slot: number;
  readonly look: ReceiverLook;
}

/** A recording that was placed on the route. */
export interface Strand {
  readonly receiver: Receiver;
  readonly run: string | null;
  /** Unique in the report. */
  readonly label: string;
  readonly recording: AssessedRecording;
  readonly assessment: Assessment;
  /** By section name; null is the whole route. */
  readonly rows: ReadonlyMap<string | null, AssessmentRow>;
}

/** A recording's excursion at a {@link Place}. */
export interface Straying {
  readonly strand: Strand;
  readonly excursion: Excursion;
}

/** Where somebody strayed: excursions of several recordings at one place count as one. */
export interface Place {
  /** 1 is the worst. */
  readonly number: number;
  /** Worst first. */
  readonly strayings: readonly Straying[];
  /** The worst of each recording, worst first. */
  readonly worst: readonly Straying[];
}

/** What all pictures and tables of one report share. */
export interface ReportModel {
  readonly assessments: readonly Assessment[];
  readonly route: Assessment['route'];
  readonly sections: readonly AssessedSection[];
  readonly receivers: readonly Receiver[];
  /** Null where recordings name no run. */
  readonly runs: readonly (string | null)[];
  readonly strands: readonly Strand[];
  /** Recordings without a place on the route. */
  readonly unplaced: readonly AssessedRecording[];
  readonly places: readonly Place[];
  /** What the runs say together; null where there is one run. */
  readonly summary: TestSummary | null;
}

/**
 * Brings one or several assessments of one route together, gives each receiver its looks and numbers the worst places.
 *
 * @throws {InputError} nothing to show, no assessment, or assessments of different routes
 */
export function reportModel(
  given: Assessments,
  summary: TestSummary | null = null,
  looks: ReceiverLooks = {},
): ReportModel {
  const assessments = checkedAssessments(given);
  const route = assessments[0].route;
  const several = assessments.length > 1;
  const runName = (stated: string | null, i: number) => {
    if (!several) return stated;
    // two assessments that call their run alike are still two runs
    const before = assessments.slice(0, i).filter(({ recordings }) => recordings.some(({ run }) => run === stated));
    return stated === null ? `run ${i + 1}` : before.length > 0 ? `${stated} (${before.length + 1})` : stated;
  };
  const placed = assessments.flatMap((assessment, i) =>
    assessment.recordings.flatMap((recording) => {
      const rows = assessment.rows.filter((row) => row.recording === recording.name);
      if (rows.length === 0) return [];
      const run = runName(recording.run, i);
      return [{ assessment, recording, run, rows: new Map(rows.map((row) => [row.section, row] as const)) }];
    }),
  );
  const keys = receiverKeys(placed);
  const labels = [...new Set(keys)];
  const slots = receiverSlots(labels);
  const receivers = labels.map(
    (label): Receiver => ({
      label,
      slot: slots.get(label)!,
      look: Object.hasOwn(looks, label) ? looks[label] : {},
    }),
  );
  const runs = [...new Set(placed.map(({ run }) => run))];
  const strands = placed.map((strand, i): Strand => {
    const receiver = receivers.find(({ label }) => label === keys[i])!;
    const label = strand.run === null || runs.length < 2 ? receiver.label : `${receiver.label} (${strand.run})`;
    return { ...strand, receiver, label };
  });
  const unplaced = assessments.flatMap(({ recordings, rows }) =>
    recordings.filter(({ name }) => !rows.some(({ recording }) => recording === name)),
  );
  return {
    assessments,
    route,
    sections: route.sections,
    receivers,
    runs,
    strands,
    unplaced,
    places: numberPlaces(strands, route.length),
    summary,
  };
}

function checkedAssessments(given: Assessments): readonly Assessment[] {
  const several = typeof given === 'object' && given !== null && Symbol.iterator in given;
  const assessments: readonly Assessment[] = several ? Array.from(given) : [given];
  if (assessments.length === 0) {
    throw new InputError({ reason: 'too-few', argument: 'assessments', rule: 'at least one assessment', value: given });
  }
  assessments.forEach((assessment: unknown, i) => {
    const argument = several ? `assessments[${i}]` : 'assessment';
    checkAssessment(assessment, argument);
    const [first, other] = [assessments[0].route, assessment.route];
    const same =
      first.length === other.length &&
      first.sections.length === other.sections.length &&
      first.sections.every(({ name, from, to }, k) => {
        const section = other.sections[k];
        return section.name === name && section.from === from && section.to === to;
      });
    if (!same) {
      const rule = 'an assessment on the same route as the first';
      throw new InputError({ reason: 'misplaced', argument, rule, value: assessment });
    }
  });
  return assessments;
}

/** Names that tell the recordings of one run apart: the receiver's, with its placement or the recording's name where needed. */
function receiverKeys(placed: readonly { assessment: Assessment; recording: AssessedRecording; run: string | null }[]) {
  const ways = [
    ({ recording }: { recording: AssessedRecording }) => recording.receiver ?? recording.name,
    ({ recording }: { recording: AssessedRecording }) =>
      [recording.receiver ?? recording.name, recording.placement].filter(Boolean).join(', '),
    ({ recording }: { recording: AssessedRecording }) => recording.name,
  ];
  for (const way of ways) {
    const keys = placed.map(way);
    const within = new Set(placed.map((item, i) => JSON.stringify([item.run, keys[i]])));
    if (within.size === placed.length) return keys;
  }
  return placed.map(({ recording }, i) => `${recording.name} (${i + 1})`);
}

/** Excursions that share at least half of the shorter one belong to one place; the worst gives it its number. */
function numberPlaces(strands: readonly Strand[], length: number): Place[] {
  const strayings = strands
    .flatMap((strand) =>
      strand.assessment.excursions
        .filter(({ recording }) => recording === strand.recording.name)
        .map((excursion): Straying => ({ strand, excursion })),
    )
    .sort((a, b) => Math.abs(b.excursion.peak) - Math.abs(a.excursion.peak));
  const places: Straying[][] = [];
  // the places by the stretches that their worst touches, as many stretches as excursions
  const near = new Map<number, number[]>();
  const stretch = length / Math.max(1, strayings.length) || 1;
  for (const straying of strayings) {
    const { from, to } = straying.excursion;
    const [first, last] = [Math.floor(from / stretch), Math.floor(to / stretch)];
    let home = places.length;
    for (let at = first; at <= last; at++) {
      for (const k of near.get(at) ?? []) {
        const worst = places[k][0].excursion;
        const common = Math.min(worst.to, to) - Math.max(worst.from, from);
        if (k < home && common >= 0.5 * Math.min(worst.to - worst.from, to - from)) home = k;
      }
    }
    if (home < places.length) places[home].push(straying);
    else {
      places.push([straying]);
      for (let at = first; at <= last; at++) near.set(at, [...(near.get(at) ?? []), home]);
    }
  }
  return places.map((strayings, i) => {
    const worst = strayings.filter(({ strand }, k) => strayings.findIndex((other) => other.strand === strand) === k);
    return { number: i + 1, strayings, worst };
  });
}
