import { describePlace } from './describePlace';
import { drawPlan } from './drawPlan';
import { type Content, element, fragment } from './element';
import { embeddedSvg } from './embeddedSvg';
import type { MapBox } from './mapFrame';
import type { Picture } from './Picture';
import { type PlanLines, planLines } from './planLines';
import { receiverName } from './receiverName';
import type { Place, ReportModel } from './reportModel';
import type { RoutePlane } from './routePlane';
import { runKey } from './runKey';
import { showAlong, showCount, showDuration, showPeak } from './showFigures';
import { shownPlaces } from './shownPlaces';
import { strandName } from './strandName';

/** The plan of the whole route, and a close-up of each numbered place with who strayed there. */
export function wherePart(model: ReportModel, plane: RoutePlane, embed: (picture: Picture) => Content): Content {
  const places = shownPlaces(model);
  const lines = planLines(model, plane);
  const plan = (width: number) =>
    embed(
      drawPlan(model, plane, lines, {
        width,
        title: `${model.route.name ?? 'The route'}, seen from above`,
        places,
        names: 'all',
        key: 'none',
      }),
    );
  return (
    <>
      {/* Names of one size don't fit both a telephone and a desk: each screen shows the plan drawn for it. */}
      <figure class="plan wide-screen">{plan(900)}</figure>
      <figure class="plan narrow-screen">{plan(340)}</figure>
      <p class="note">
        North is up; black is the reference line with arrow heads in the direction of travel, the tinted band its
        corridor
        {model.route.decoy || model.route.centreline ? ', dotted lines are the lines given to compare with' : null}.
        Recordings are drawn from joining the route to leaving it.
      </p>
      <p class="note">
        Key:{model.receivers.map((receiver) => [' ', receiverName(receiver)])}
        {model.runs.length > 1 && ['; runs, thin to thick:', runKey(model)]}
      </p>
      {places.length > 0 && (
        <>
          <h3>The worst places, close up</h3>
          <ol class="cards">{places.map((place) => closeUp(model, plane, lines, place))}</ol>
          {model.places.length > places.length && (
            <p class="note">
              {showCount(model.places.length - places.length, 'lesser place is', 'lesser places are')} in the files, not
              here.
            </p>
          )}
        </>
      )}
    </>
  );
}

function closeUp(model: ReportModel, plane: RoutePlane, lines: PlanLines, place: Place): Content {
  const [worst] = place.worst;
  const picture = drawPlan(model, plane, lines, {
    width: 280,
    title: `Place ${place.number}, close up`,
    box: boxOf(place, plane),
    places: [place],
    names: 'none',
    key: 'none',
    limits: { least: 190, most: 190 },
  });
  const { excursion } = worst;
  return (
    <li class="card" data-place={place.number} data-at={excursion.peakAt.toFixed(1)} id={`place-${place.number}`}>
      <h4>
        <span class="badge">{place.number}</span> {showAlong(excursion.peakAt)}
        {excursion.section !== null && `, ${excursion.section}`}
      </h4>
      <button type="button" hidden data-point={place.number}>
        Show place {place.number} in all pictures
      </button>
      {embeddedSvg({ ...picture, description: describePlace(place) })}
      <ul class="plain">
        {place.worst.slice(0, 6).map(({ strand, excursion: { peak, side, metres, seconds } }) => (
          <li>
            {strandName(model, strand)}: <strong>{showPeak({ peak, side })}</strong> at most, outside for{' '}
            {showAlong(metres)}
            {seconds !== null && `, ${showDuration(seconds)}`}
          </li>
        ))}
      </ul>
      {place.worst.length > 6 && <p class="note">and {showCount(place.worst.length - 6, 'more recording')}</p>}
    </li>
  );
}

/** Around the worst peak, wide enough to hold it and the line it should have followed, the shape of the picture. */
function boxOf({ strayings: [{ excursion }] }: Place, plane: RoutePlane): MapBox {
  const [x, y] = plane.at(excursion.peakAt);
  const reach = Math.max(20, 1.6 * Math.abs(excursion.peak), Math.min(60, 0.5 * excursion.metres));
  return { west: x - reach * 1.47, east: x + reach * 1.47, south: y - reach, north: y + reach };
}
