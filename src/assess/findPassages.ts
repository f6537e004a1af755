import { deepest, type Ground } from '../areas';
import type { Passage } from './Assessment';
import { round } from './drawnLine';
import type { GroundPassed } from './groundPassed';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

export const PASSAGE_RULE =
  'A passage is the recorded line from where it is surely in an impossible area, or outside every allowed one, to where it surely isn’t; a break of the recording ends it. Off the route nothing is said.';

/** The stays of a recording in impossible areas and outside every allowed one, in order of the line. */
export function findPassages(
  grid: RouteGrid,
  name: string,
  placed: PlacedRecording,
  { stays }: GroundPassed,
  { index }: Ground,
): Omit<Passage, 'number'>[] {
  const timed = placed.recording.time !== undefined;
  return stays.map(({ area, region, parts }): Omit<Passage, 'number'> => {
    const along = (vertex: number, share: number) => {
      const begin = placed.along(vertex - 1);
      const place = begin + share * (placed.along(vertex) - begin);
      return Math.min(grid.route.length, Math.max(0, place));
    };
    let [from, to, metres, seconds] = [Infinity, -Infinity, 0, 0];
    for (const part of parts) {
      const ends = [along(part.vertex, part.from), along(part.vertex, part.to)];
      from = Math.min(from, ...ends);
      to = Math.max(to, ...ends);
      metres += (part.to - part.from) * placed.step[part.vertex];
      seconds += (part.to - part.from) * Math.max(0, placed.wait[part.vertex] || 0);
    }
    const deep = deepest(region, parts);
    const { vertex, from: begin, to: end } = parts[deep.part];
    const deepestAt = along(vertex, begin + deep.share * (end - begin));
    const bin = grid.binAt(deepestAt);
    const section = grid.section[bin];
    return {
      recording: name,
      area: area < 0 ? null : index.areas[area].name,
      section: section < 0 ? null : grid.route.sections[section].name,
      from,
      to,
      metres,
      seconds: timed ? seconds : null,
      deepest: deep.distance,
      deepestAt,
      position: grid.positionAt(bin).map((degrees) => round(degrees, 7)),
    };
  });
}
