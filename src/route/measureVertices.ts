import type { Position } from 'geojson';
import { quickInverse, Sum, unwrapLongitude } from '../geodesy';
import type { Route } from '../model';

/** The columns of a line through positions: longitudes unwrapped, along-track the compensated sum of its geodesics. */
export function measureVertices(positions: readonly Position[]): Pick<Route, 'lon' | 'lat' | 'alongTrack' | 'length'> {
  const lon = new Float64Array(positions.length);
  const lat = new Float64Array(positions.length);
  const alongTrack = new Float64Array(positions.length);
  const sum = new Sum();
  positions.forEach(([longitude, latitude], i) => {
    lon[i] = i === 0 ? longitude : unwrapLongitude(longitude, lon[i - 1]);
    lat[i] = latitude;
    if (i > 0) sum.add(quickInverse(lon[i - 1], lat[i - 1], lon[i], lat[i]).s12);
    alongTrack[i] = sum.value;
  });
  return { lon, lat, alongTrack, length: sum.value };
}
