import { SegmentTree } from '../index';
import type { Mark } from '../model';
import type { Draft } from './Draft';
import type { LaidLine } from './layVertices';

/** Metres: a mark drawn this far from the route is not on it. */
const FAR = 25;

/** The marks in order along the route. Warns of those placed by a position far from it. */
export function placeMarks(draft: Draft, { columns, alongNode }: LaidLine): Mark[] {
  let tree: SegmentTree | undefined;
  const marks = draft.marks.map(({ node, near, name, ...rest }): Mark => {
    if (near === undefined) return { name, alongTrack: alongNode[node], ...rest };
    const { lon, lat, alongTrack } = columns;
    tree ??= new SegmentTree(lon, lat);
    const segment = tree.nearest(near[0], near[1]);
    if (tree.distance > FAR) {
      const message = `Mark '${name}' lies ${tree.distance.toFixed(0)} m from the route.`;
      draft.warnings.push({ reason: 'far-mark', fromNode: node, toNode: node, message });
    }
    const length = alongTrack[segment + 1] - alongTrack[segment];
    return { name, alongTrack: alongTrack[segment] + tree.fraction * length, ...rest };
  });
  return marks.sort((a, b) => a.alongTrack - b.alongTrack);
}
