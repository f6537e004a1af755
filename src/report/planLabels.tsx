import { drawBadge } from './drawBadge';
import { type Content, element, fragment } from './element';
import { Label } from './Label';
import { boxAbout, overlap } from './labelBox';
import { leaderTo } from './leaderTo';
import { lettersOf } from './lettersOf';
import type { MapFrame } from './mapFrame';
import { placeLabels } from './placeLabels';
import type { Place, ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';
import { lapBase } from './stripRows';
import { textWidth } from './textWidth';

/** A name that has no room in the plan, and the letter that stands for it there; a dash where it too had none. */
export interface LetteredName {
  readonly letter: string;
  readonly name: string;
}

/** Letters that stand for names of sections at most: more can't be told apart in a picture. */
const LETTERS = 60;

/** Where along a section its name may lie, as shares of its length: the first of these where it has room. */
const SHARES = [0.5, 0.3, 0.7, 0.1, 0.9];

/** Share of a plan's width that no name is wider than. */
const WIDEST = 0.5;

/**
 * Numbered places first, then start and finish, sections and marks. The name of a section covers no line and no other label:
 * where it has no room, a letter stands for it and `key` has the name, with a dash where not even a letter found room. Marks
 * without room are left out, numbers never.
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
  const furniture = frame.corner;
  const badges = placeLabels(shown, room, crossed, [furniture], 'set anyhow');
  const taken = [furniture, ...badges.flatMap((place) => (place ? [boxAbout(place, 9)] : []))];
  const texts = names === 'none' ? [] : wantedNames(route, plane, frame);
  const covered = [...taken];
  const set = new Map<WantedName, { readonly at: Point; readonly spot: Point; readonly width: number }>();
  /** Sets those not yet set that find room beside one of their places. */
  const place = (wanted: readonly WantedName[], anchors: readonly number[], widthOf: (label: WantedName) => number) => {
    for (const k of anchors) {
      const labels = wanted
        .filter((label) => !set.has(label))
        .map((label) => ({ ...label, label, at: label.anchors[k], width: widthOf(label) }))
        // a leader from under another label would seem to be that one's
        .filter(({ at }) => k === 0 || !covered.some((box) => overlap(boxAbout(at, 3), box)));
      for (const [i, spot] of placeLabels(labels, room, crossed, covered).entries()) {
        if (!spot) continue;
        const { label, at, width, height } = labels[i];
        set.set(label, { at, spot, width });
        covered.push(boxAbout(spot, width / 2, height / 2));
      }
    }
  };
  const narrow = ({ width }: WantedName) => width <= WIDEST * frame.width;
  place(texts.filter(narrow), [0], ({ width }) => width);
  const seen = ({ anchors }: WantedName) =>
    anchors.some(([x, y]) => x > 0 && y > 0 && x < frame.width && y < frame.height);
  const unnamed = texts.filter((label) => label.kind === 'section' && !set.has(label) && seen(label)).slice(0, LETTERS);
  const everywhere = SHARES.map((_, k) => k);
  place(unnamed.filter(narrow), everywhere.slice(1), ({ width }) => width);
  const homeless = unnamed.filter((label) => !set.has(label));
  const letterWidth = textWidth(homeless.length > 26 ? 'aa' : 'a', 12);
  place(homeless, everywhere, () => letterWidth);
  const lettered = homeless.filter((label) => set.has(label));
  const key = [
    ...lettered.map(({ text }, i) => ({ letter: lettersOf(i), name: text })),
    ...homeless.filter((label) => !set.has(label)).map(({ text }) => ({ letter: '–', name: text })),
  ];
  const labels = texts.map((label) => ({
    at: label.anchors[0],
    spot: null,
    ...label,
    ...set.get(label),
    text: lettered.includes(label) ? lettersOf(lettered.indexOf(label)) : label.text,
  }));
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
    key,
  };
}

function leader(from: Point, to: Point | null): Content {
  return to && <path class="dl-leader" d={`M${from.map((v) => v.toFixed(1))}L${to.map((v) => v.toFixed(1))}`} />;
}

type WantedName = ReturnType<typeof wantedNames>[number];

function wantedNames(route: ReportModel['route'], plane: RoutePlane, frame: MapFrame) {
  const label = (text: string, alongTracks: readonly number[], kind: 'section' | 'mark') => ({
    anchors: alongTracks.map((alongTrack) => frame.toPixels(plane.at(alongTrack))),
    width: textWidth(text, kind === 'section' ? 12 : 11),
    height: 15,
    text,
    kind,
    ...(kind === 'section' ? { lines: 'must not' as const } : {}),
  });
  const [start, finish] = [plane.at(0), plane.at(route.length)];
  const together = Math.hypot(start[0] - finish[0], start[1] - finish[1]) * frame.scale < 20;
  return [
    label(together ? 'start and finish' : 'start', [0], 'mark'),
    ...(together ? [] : [label('finish', [route.length], 'mark')]),
    ...lapsOnce(route.sections).map(({ name, from, to }) => {
      const places = SHARES.map((share) => from + share * (to - from));
      return label(name, places, 'section');
    }),
    ...route.marks.map(({ name, alongTrack }) => label(name, [alongTrack], 'mark')),
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
