import { type Content, element } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { runKey } from './runKey';

/** The key, always in sight, and the slider that walks along the route in all pictures. */
export function walkBar(model: ReportModel): Content {
  const { route, receivers, runs } = model;
  return (
    <footer id="walk" class="walk" aria-label="Key and walk along the route">
      <div>
        <label hidden>
          <span>Walk along the route</span>
          <input type="range" min={0} max={Math.floor(route.length)} step={1} value={0} />
          <output />
        </label>
        <ul tabindex={0} aria-label="Key, with the offsets at the place walked to">
          {receivers.map((receiver) => (
            <li>
              {receiverName(receiver)} <span data-values />
            </li>
          ))}
          {runs.length > 1 && <li>· run by run, thin to thick:{runKey(model)}</li>}
        </ul>
      </div>
    </footer>
  );
}
