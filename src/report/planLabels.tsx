import { drawBadge } from './drawBadge';
import { type Content, element, fragment } from './element';
import { Label } from './Label';
import { boxAbout } from './labelBox';
import { leaderTo } from './leaderTo';
import type { MapFrame } from './mapFrame';
import { placeLabels } from './placeLabels';
import type { Place, ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';
import { lapBase } from './stripRows';
import { textWidth } from './textWidth';

/** A name that has no room in the plan, and the letter that stands for it there. */
export interface LetteredName {
  readonly letter: string;
  readonly name: string;
}

/** Letters that stand for names of sections at most: more can't be told apart in a picture. */
const LETTERS = 60;

/** Share of a plan's width that no name is wider than. */
const WIDEST = 0.5;

/**
 * Numbered places first, then start and finish, sections and marks. The name of a section covers no line and no other label:
 * where it has no room, a letter stands for it and `key` has the name. What finds no room even so is left out, numbers never.
 */
export function planLabels(
  { route }: ReportModel,
  plane: RoutePlane,
  { places, names }: { readonly places: readonly Place[]; readonly names: 'all' | 'none' },
  frame: MapFrame,
  crossed: readonly Point[],
): { readonly content: Content; readonly key: readonly LetteredName[] } {
  const room = { width: frame.width, height: frame.height };
  const shown = places.map(({ strayings: [{ excursion }] }) => {
    const at = frame.toPixels(plane.at(excursion.peakAt));
    const [x, y] = plane.right(excursion.peakAt, 5);
    const sign = excursion.peak < 0 ? -1 : 1;
    return { at, width: 18, height: 18, towards: [sign * x, -sign * y] as Point };
  });
  const furniture = { left: 0, top: frame.height - 50, right: Math.min(220, frame.width / 2), bottom: frame.height };
  const badges = placeLabels(shown, room, crossed, [furniture], 'set anyhow');
  const taken = [furniture, ...badges.flatMap((place) => (place ? [boxAbout(place, 9)] : []))];
  const texts = names === 'none' ? [] : wantedNames(route, plane, frame);
  const narrow = texts.filter(({ width }) => width <= WIDEST * frame.width);
  const found = placeLabels(narrow, room, crossed, taken);
  const spots = texts.map((label) => found[narrow.indexOf(label)] ?? null);
  const boxes = texts.flatMap(({ width, height }, i) => {
    const spot = spots[i];
    return spot ? [boxAbout(spot, width / 2, height / 2)] : [];
  });
  const homeless = texts.filter(({ kind }, i) => kind === 'section' && !spots[i]).slice(0, LETTERS);
  const width = textWidth(homeless.length > 26 ? 'aa' : 'a', 12);
  const letterSpots = placeLabels(
    homeless.map((label) => ({ ...label, width })),
    room,
    crossed,
    [...taken, ...boxes],
  );
  const lettered = homeless.flatMap((label, i) => (letterSpots[i] ? [{ ...label, width, spot: letterSpots[i] }] : []));
  const labels = [
    ...texts.map((label, i) => ({ ...label, spot: spots[i] })),
    ...lettered.map((label, i) => ({ ...label, text: letter(i) })),
  ];
  return {
    content: (
      <>
        {labels.map(({ at, text, kind, spot, width, height }) => (
          <>
            {kind === 'section' && spot && leader(at, leaderTo(at, boxAbout(spot, width / 2, height / 2)))}
            {kind !== 'section' && <circle class="dl-badge" cx={at[0].toFixed(1)} cy={at[1].toFixed(1)} r={3.5} />}
            {spot && (
              <Label at={spot} looks={kind === 'section' ? 'dl-strong' : 'dl-soft dl-small'}>
                {text}
              </Label>
            )}
          </>
        ))}
        {places.map((place, i) => {
          const [at, badge] = [shown[i].at, badges[i]];
          if (!badge) return null;
          return (
            <>
              {leader(at, badge)}
              {drawBadge(place.number, badge)}
            </>
          );
        })}
      </>
    ),
    key: lettered.map(({ text }, i) => ({ letter: letter(i), name: text })),
  };
}

function leader(from: Point, to: Point | null): Content {
  return to && <path class="dl-leader" d={`M${from.map((v) => v.toFixed(1))}L${to.map((v) => v.toFixed(1))}`} />;
}

/** a to z, then aa to az, ba and so on. */
function letter(i: number): string {
  const last = String.fromCharCode(97 + (i % 26));
  return i < 26 ? last : letter(Math.floor(i / 26) - 1) + last;
}

function wantedNames(route: ReportModel['route'], plane: RoutePlane, frame: MapFrame) {
  const label = (text: string, alongTrack: number, kind: 'section' | 'mark') => ({
    at: frame.toPixels(plane.at(alongTrack)),
    width: textWidth(text, kind === 'section' ? 12 : 11),
    height: 15,
    text,
    kind,
    ...(kind === 'section' ? { lines: 'must not' as const } : {}),
  });
  const [start, finish] = [plane.at(0), plane.at(route.length)];
  const together = Math.hypot(start[0] - finish[0], start[1] - finish[1]) * frame.scale < 20;
  return [
    label(together ? 'start and finish' : 'start', 0, 'mark'),
    ...(together ? [] : [label('finish', route.length, 'mark')]),
    ...lapsOnce(route.sections).map(({ name, from, to }) => label(name, (from + to) / 2, 'section')),
    ...route.marks.map(({ name, alongTrack }) => label(name, alongTrack, 'mark')),
  ];
}

/** The sections, of those in laps the first of each, without its lap in its name. */
function lapsOnce(sections: ReportModel['sections']) {
  const bases = new Set<string>();
  return sections.flatMap((section) => {
    if (section.lap === null) return [section];
    const name = lapBase(section.name);
    if (bases.has(name)) return [];
    bases.add(name);
    return [{ ...section, name }];
  });
}
