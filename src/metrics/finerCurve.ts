import type { Curve } from './Curve';
import { cutEdges } from './cutEdges';

/** The curve with edges of `most` metres at the most. */
export function finerCurve(curve: Curve, most: number, argument: string): Curve {
  const { vertices } = curve;
  const place = new Float64Array(3);
  return cutEdges(curve, {
    argument,
    most,
    // rounding must not make a piece too long
    piecesOf: (chord) => Math.max(1, Math.ceil((chord / most) * (1 + 1e-6))),
    place: (edge, pieces, into, at) => {
      for (let k = 1; k < pieces; k++) {
        vertices.between(edge, k / pieces, place);
        [into.x[at + k - 1], into.y[at + k - 1], into.z[at + k - 1]] = place;
      }
    },
  });
}
