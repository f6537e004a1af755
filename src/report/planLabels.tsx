import { drawBadge } from './drawBadge';
import { type Content, element, fragment } from './element';
import { Label } from './Label';
import { boxAbout } from './labelBox';
import type { MapFrame } from './mapFrame';
import { placeLabels, type WantedLabel } from './placeLabels';
import type { Place, ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';
import { textWidth } from './textWidth';

/** Numbered places first, then start and finish, marks and sections: what finds no room is left out, numbers never. */
export function planLabels(
  { route }: ReportModel,
  plane: RoutePlane,
  { places, names }: { readonly places: readonly Place[]; readonly names: 'all' | 'none' },
  frame: MapFrame,
  crossed: readonly Point[],
): Content {
  const room = { width: frame.width, height: frame.height };
  const shown = places.map(({ strayings: [{ excursion }] }) => {
    const at = frame.toPixels(plane.at(excursion.peakAt));
    const [x, y] = plane.right(excursion.peakAt, 5);
    const sign = excursion.peak < 0 ? -1 : 1;
    return { at, width: 18, height: 18, towards: [sign * x, -sign * y] as Point };
  });
  const furniture = { left: 0, top: frame.height - 50, right: Math.min(220, frame.width / 2), bottom: frame.height };
  const badges = placeLabels(shown, room, crossed, [furniture], 'set anyhow');
  const taken = badges.flatMap((place) => (place ? [boxAbout(place, 9)] : []));
  const texts = names === 'none' ? [] : wantedNames(route, plane, frame);
  const spots = placeLabels(texts, room, crossed, [furniture, ...taken]);
  return (
    <>
      {texts.map(({ at, text, kind }, i) => (
        <>
          {kind !== 'section' && <circle class="dl-badge" cx={at[0].toFixed(1)} cy={at[1].toFixed(1)} r={3.5} />}
          {spots[i] && (
            <Label at={spots[i]} looks={kind === 'section' ? 'dl-strong' : 'dl-soft dl-small'}>
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
            <path class="dl-leader" d={`M${at.map((v) => v.toFixed(1))}L${badge.map((v) => v.toFixed(1))}`} />
            {drawBadge(place.number, badge)}
          </>
        );
      })}
    </>
  );
}

function wantedNames(route: ReportModel['route'], plane: RoutePlane, frame: MapFrame) {
  const label = (
    text: string,
    alongTrack: number,
    kind: 'section' | 'mark',
  ): WantedLabel & { text: string; kind: string } => ({
    at: frame.toPixels(plane.at(alongTrack)),
    width: textWidth(text, kind === 'section' ? 12 : 11),
    height: 15,
    text,
    kind,
  });
  const [start, finish] = [plane.at(0), plane.at(route.length)];
  const together = Math.hypot(start[0] - finish[0], start[1] - finish[1]) * frame.scale < 20;
  return [
    label(together ? 'start and finish' : 'start', 0, 'mark'),
    ...(together ? [] : [label('finish', route.length, 'mark')]),
    ...route.sections.map(({ name, from, to }) => label(name, (from + to) / 2, 'section')),
    ...route.marks.map(({ name, alongTrack }) => label(name, alongTrack, 'mark')),
  ];
}
