import { drawPlan } from './drawPlan';
import { type Content, element, fragment } from './element';
import type { Picture } from './Picture';
import type { PlanLines } from './planLines';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import type { RoutePlane } from './routePlane';
import { runKey } from './runKey';
import { shownPlaces } from './shownPlaces';

/** The plan of the whole route with the worst places numbered, drawn for a desk and for a telephone, and its key. */
export function planFigure(
  model: ReportModel,
  plane: RoutePlane,
  lines: PlanLines,
  embed: (picture: Picture) => Content,
): Content {
  const { route, receivers, runs } = model;
  const places = shownPlaces(model);
  const plan = (width: number, most: number) =>
    embed(
      drawPlan(model, plane, lines, {
        width,
        title: `${route.name ?? 'The route'}, seen from above`,
        places,
        names: 'all',
        key: 'none',
        limits: { least: 0.25 * width, most: most * width },
      }),
    );
  return (
    <>
      {/* Names of one size don't fit both a telephone and a desk: each screen shows the plan drawn for it. */}
      <figure class="plan wide-screen">{plan(520, 0.95)}</figure>
      <figure class="plan narrow-screen">{plan(340, 1.05)}</figure>
      <p class="note key">
        {receivers.map((receiver) => [receiverName(receiver), ' '])}
        {runs.length > 1 && ['· runs, thin to thick:', runKey(model)]}
      </p>
      {/* No colour is named: paper, light and dark screens draw the reference each in their own. */}
      <p class="note">
        North is up. The line with arrow heads is the reference, the band its corridor
        {route.decoy || route.centreline ? ', dotted lines are those given to compare with' : null}
        {places.length > 0 && '; numbers are the worst places'}.
        {receivers.length > 0 && ' Recordings are drawn from joining the route to leaving it.'}
      </p>
    </>
  );
}
