import { assess } from 'datumline';
import { toGeoJson } from 'datumline/report';
import { demoRide } from './demoRide';

// One layer a kind of feature, for any map that draws GeoJSON.
const { route, recording } = demoRide('B');
const { features } = toGeoJson(assess(route, [recording]));
const colours = { route: '#333', recording: '#0072B2', excursion: '#D55E00' } as const;
const layers = Object.entries(colours).map(([kind, colour]) => ({
  ...{ id: kind, type: 'line', paint: { 'line-color': colour } },
  data: { type: 'FeatureCollection', features: features.filter(({ properties }) => properties.kind === kind) },
}));
console.log(`map: ${layers.map(({ id, data }) => `${id} ${data.features.length > 0 ? 'drawn' : 'empty'}`).join(', ')}`);
