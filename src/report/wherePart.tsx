import { describePlace } from './describePlace';
import { drawPlan } from './drawPlan';
import { type Content, element, fragment } from './element';
import { embeddedSvg } from './embeddedSvg';
import { placeBox } from './placeBox';
import type { PlanLines } from './planLines';
import type { Place, ReportModel } from './reportModel';
import type { RoutePlane } from './routePlane';
import { showAlong, showCount, showDuration, showPeak } from './showFigures';
import { shownPlaces } from './shownPlaces';
import { strandName } from './strandName';

/** Recordings told at a place, the worst first. */
const TOLD = 3;

/** A close-up of each numbered place with who strayed there. Null where nobody did. */
export function wherePart(model: ReportModel, plane: RoutePlane, lines: PlanLines): Content {
  const places = shownPlaces(model);
  if (places.length === 0) return null;
  return (
    <>
      <ol class="cards">{places.map((place) => closeUp(model, plane, lines, place))}</ol>
      <p class="note">
        The furthest offset, then for how long it was outside the corridor.
        {model.places.length > places.length &&
          ` ${showCount(model.places.length - places.length, 'lesser place is', 'lesser places are')} in the files, not here.`}
      </p>
    </>
  );
}

function closeUp(model: ReportModel, plane: RoutePlane, lines: PlanLines, place: Place): Content {
  const [worst] = place.worst;
  const picture = drawPlan(model, plane, lines, {
    width: 280,
    title: `Place ${place.number}, close up`,
    ...placeBox(place, plane, 1.65),
    places: [place],
    names: 'none',
    key: 'none',
    limits: { least: 170, most: 170 },
  });
  const { excursion } = worst;
  return (
    <li class="card" data-place={place.number} data-at={excursion.peakAt.toFixed(1)} id={`place-${place.number}`}>
      <h3>
        <span class="badge">{place.number}</span> {showAlong(excursion.peakAt)}
        {excursion.section !== null && `, ${excursion.section}`}{' '}
        <button
          type="button"
          hidden
          data-point={place.number}
          aria-label={`Show place ${place.number} in all pictures`}
        >
          Show
        </button>
      </h3>
      {embeddedSvg({ ...picture, description: describePlace(place) })}
      <ul class="plain">
        {place.worst.slice(0, TOLD).map(({ strand, excursion: { peak, side, metres, seconds } }) => (
          <li>
            {strandName(model, strand)} <strong>{showPeak({ peak, side })}</strong>, {showAlong(metres)}
            {seconds !== null && `, ${showDuration(seconds)}`}
          </li>
        ))}
        {place.worst.length > TOLD && <li>and {showCount(place.worst.length - TOLD, 'more recording')}</li>}
      </ul>
    </li>
  );
}
