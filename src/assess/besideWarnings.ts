import { group } from 'd3-array';
import type { AssessedRecording, AssessmentRow, AssessmentWarning } from './Assessment';
import type { BesideOthers } from './placeEntries';

/** Seconds: no receiver lags so much. */
const LONGEST_LAG = 60;

/** A shorter lag is told where it is so many standard errors, and so many metres of the way. */
const SURE = 3;
const WORTH_A_WORD = 5;

/** Zones are whole quarters of an hour apart (common practice, no source); a lag of so many seconds may come on top. */
const QUARTER = 900;
const NEAR = 60;

/** What recordings say of each other that a reader must know: clocks far apart, other paces, one file given twice. */
export function besideWarnings(
  recordings: readonly AssessedRecording[],
  rows: readonly Pick<AssessmentRow, 'recording' | 'section' | 'pace'>[],
  beside: ReadonlyMap<string, BesideOthers>,
  pace: 'shared' | 'apart',
): AssessmentWarning[] {
  const warnings: AssessmentWarning[] = [];
  const warn = (reason: AssessmentWarning['reason'], recording: string, message: string) =>
    warnings.push({ recording, section: null, from: null, to: null, reason, message });
  const paces = new Map(
    rows.flatMap(({ recording, section, pace }) => (section === null ? [[recording, pace?.median]] : [])),
  );
  for (const ofRun of group(recordings, ({ run }) => run).values()) {
    const members = ofRun.filter(({ name }) => beside.has(name));
    const clock = ({ name }: AssessedRecording) => beside.get(name)!.clockOffset;
    for (const member of members) {
      // of two, nobody knows which is right
      const late =
        member.lag?.median ?? (members.length === 2 && member === members[1] ? clock(member) - clock(members[0]) : 0);
      const others = member.lag ? 'the others of its run' : `“${members[0].name}”`;
      const { alongTrackError, clockError } = beside.get(member.name)!;
      const metres = Math.abs(late) * (paces.get(member.name) ?? 0);
      if (Math.abs(late) > LONGEST_LAG) {
        warn('clock', member.name, `It passes places ${inWords(late)} than ${others}: ${causeOf(late)}`);
      } else if (
        alongTrackError &&
        metres > WORTH_A_WORD &&
        Math.abs(late) > SURE * clockError * (member.lag ? 1 : 2)
      ) {
        const when = `${Math.abs(late).toFixed(1)} s ${late > 0 ? 'later' : 'earlier'}`;
        const message = `It passes places ${when} than ${others}, ${metres.toFixed(0)} m of its way: is it late, or its clock off?`;
        warn('clock', member.name, message);
      }
      if (pace === 'shared' && !alongTrackError) {
        const message = 'It keeps another pace than the others of its run: was it carried along with them?';
        warn('other-pace', member.name, message);
      }
    }
  }
  const first = new Map<string, string>();
  for (const { name, hash, fixes } of recordings) {
    const same = first.get(hash);
    if (same === undefined) first.set(hash, name);
    else if (fixes > 1) warn('same-recording', name, `It has the same fixes as “${same}”: one file given twice?`);
  }
  return warnings;
}

function inWords(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const parts = [
    [Math.floor(whole / 86_400), 'd'],
    [Math.floor(whole / 3600) % 24, 'h'],
    [Math.floor(whole / 60) % 60, 'min'],
    [whole % 60, 's'],
  ] as const;
  const said = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return `${said.join(' ')} ${seconds > 0 ? 'later' : 'earlier'}`;
}

function causeOf(seconds: number): string {
  const quarters = Math.round(seconds / QUARTER);
  if (quarters === 0 || Math.abs(seconds - quarters * QUARTER) > NEAR) return 'another run, or a clock set wrong?';
  const days = Math.abs(quarters) >= 96;
  const hours = quarters % 4 === 0 ? 'a whole number of hours' : 'whole quarters of an hour';
  return `${hours}, as between ${days ? 'days or time zones' : 'time zones'}.`;
}
