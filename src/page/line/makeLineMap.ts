import { effect, untracked } from '@preact/signals';
import type { Route } from 'datumline';
import type { GeoJSON, Geometry, Position } from 'geojson';
import ScaleLine from 'ol/control/ScaleLine';
import Zoom from 'ol/control/Zoom';
import type { Coordinate } from 'ol/coordinate';
import { createEmpty, type Extent, extend, getCenter, getHeight, getWidth, isEmpty } from 'ol/extent';
import Feature from 'ol/Feature';
import LineString from 'ol/geom/LineString';
import MultiLineString from 'ol/geom/MultiLineString';
import MultiPoint from 'ol/geom/MultiPoint';
import Point from 'ol/geom/Point';
import Polygon from 'ol/geom/Polygon';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import PointerInteraction from 'ol/interaction/Pointer';
import ImageLayer from 'ol/layer/Image';
import VectorLayer from 'ol/layer/Vector';
import OlMap from 'ol/Map';
import type MapBrowserEvent from 'ol/MapBrowserEvent';
import Projection from 'ol/proj/Projection';
import ImageCanvas from 'ol/source/ImageCanvas';
import VectorSource from 'ol/source/Vector';
import CircleStyle from 'ol/style/Circle';
import Fill from 'ol/style/Fill';
import RegularShape from 'ol/style/RegularShape';
import Stroke from 'ol/style/Stroke';
import Style from 'ol/style/Style';
import View from 'ol/View';
import { addPoint } from './addPoint';
import { addressOf } from './addressOf';
import { cutSection, freeSectionName } from './cutSection';
import type { Desk } from './Desk';
import type { Drawing, StepPath } from './Drawing';
import { shownPosition } from './describeStep';
import { fitPicture } from './fitPicture';
import { gridLines } from './gridLines';
import type { DrawnEdge, Handle } from './handlesOf';
import { insertPoint } from './insertPoint';
import { LongLines } from './LongLines';
import { type MapPlane, mapPlane } from './mapPlane';
import { movePoint } from './movePoint';
import { spliceSteps } from './spliceSteps';
import { surroundingLines } from './surroundingLines';

/** Screen elements within which a point or an edge is meant. */
const REACH = 12;

/** Screen elements: so far apart points are drawn at least. */
const CELL = 9;

/** Metres: further from the middle of the plane its lengths are no longer told well, and it gets another middle. */
const FAR = 50_000;

/** Metres across the map where there is nothing yet to show. */
const EMPTY_WIDTH = 2000;

/** The map: what it is handed over shows what is on the desk, and what is done on it goes there. */
export function makeLineMap(target: HTMLElement, desk: Desk): () => void {
  const { store, say } = desk;
  let plane = mapPlane([0, 0]);
  /** Whether the middle of the plane is one that anything asked for. */
  let settled = false;

  const sources = {
    grid: new VectorSource(),
    surroundings: new VectorSource(),
    recordings: new VectorSource(),
    built: new VectorSource(),
    drawn: new VectorSource(),
    handles: new VectorSource(),
    shown: new VectorSource(),
  };
  let colours = coloursOf(target);
  const layer = (name: keyof typeof sources, style: (feature: Feature) => Style | Style[]) =>
    new VectorLayer({
      source: sources[name],
      style: style as never,
      updateWhileInteracting: true,
      updateWhileAnimating: true,
    });
  const picture = new Image();
  const pictureLayer = new ImageLayer({ opacity: 0.7, visible: false });
  const layers = [
    pictureLayer,
    layer('grid', () => new Style({ stroke: new Stroke({ color: colours.edge, width: 1 }) })),
    layer('surroundings', () => [
      new Style({
        stroke: new Stroke({ color: colours.quiet, width: 1 }),
        fill: new Fill({ color: `${colours.quiet}22` }),
      }),
      new Style({ image: new CircleStyle({ radius: 2, fill: new Fill({ color: colours.quiet }) }) }),
    ]),
    layer('recordings', () => new Style({ stroke: new Stroke({ color: `${colours.ink}55`, width: 1.5 }) })),
    layer(
      'shown',
      () =>
        new Style({
          stroke: new Stroke({ color: `${colours.care}aa`, width: 12 }),
          image: new CircleStyle({ radius: 14, stroke: new Stroke({ color: colours.care, width: 4 }) }),
        }),
    ),
    layer('built', (feature) => builtStyle(feature, colours)),
    layer('drawn', (feature) =>
      feature.get('area')
        ? new Style({
            stroke: new Stroke({ color: colours.drawn, width: 1.5, lineDash: [2, 3] }),
            fill: new Fill({ color: `${colours.drawn}18` }),
          })
        : new Style({ stroke: new Stroke({ color: colours.drawn, width: 1.5, lineDash: [6, 4] }) }),
    ),
    layer('handles', (feature) => handleStyle(feature, colours)),
  ];

  // the arrow keys move it, + and - bring it nearer or further
  target.tabIndex = 0;
  const map = new OlMap({
    target,
    layers,
    controls: [
      new ScaleLine({ minWidth: 80 }),
      new Zoom({ zoomInTipLabel: 'Nearer', zoomOutTipLabel: 'Further away' }),
    ],
    interactions: defaultInteractions({ doubleClickZoom: false, altShiftDragRotate: false, pinchRotate: false }),
    view: viewOf(plane),
  });

  // — where things lie in the plane —

  const flat = (position: Position): Coordinate => plane.toPlane(position);
  /** Of points that are drawn, which outlive most edits: where each lies in the plane. */
  let known = new WeakMap<Position, Coordinate>();
  const drawnAt = (position: Position): Coordinate => {
    const there = known.get(position) ?? flat(position);
    known.set(position, there);
    return there;
  };
  let handles: readonly { readonly handle: Handle; readonly at: Coordinate }[] = [];
  let edges: readonly { readonly edge: DrawnEdge; readonly ends: readonly [Coordinate, Coordinate] }[] = [];
  const reach = () => REACH * (map.getView().getResolution() ?? 1);

  function handleNear(at: Coordinate) {
    let [nearest, least] = [undefined as (typeof handles)[number] | undefined, reach()];
    for (const one of handles) {
      const far = Math.hypot(one.at[0] - at[0], one.at[1] - at[1]);
      // of two in one place the later: the line's end lies on top
      if (far <= least) [nearest, least] = [one, far];
    }
    return nearest;
  }

  function edgeNear(at: Coordinate) {
    let [nearest, least] = [undefined as { edge: DrawnEdge; foot: Coordinate } | undefined, reach()];
    for (const { edge, ends } of edges) {
      const foot = footOn(ends, at);
      const far = Math.hypot(foot[0] - at[0], foot[1] - at[1]);
      if (far < least) [nearest, least] = [{ edge, foot }, far];
    }
    return nearest;
  }

  // — what is shown —

  function showDrawing(): void {
    const { handles: points, edges: between } = desk.handles.value;
    handles = points.map((handle) => ({ handle, at: drawnAt(handle.position) }));
    edges = between.map((edge) => ({ edge, ends: [drawnAt(edge.from), drawnAt(edge.to)] as const }));
    const selected = desk.selected.value?.join('.');
    const kinds = new Map<string, Coordinate[]>();
    // of points that lie on one another on the screen one is drawn; to be taken hold of are all
    const cell = CELL * (map.getView().getResolution() ?? 1);
    const taken = new Set<string>();
    const kept = (kind: string, at: Coordinate) => {
      if (!kinds.has(kind)) kinds.set(kind, []);
      kinds.get(kind)!.push(at);
    };
    for (const { handle, at } of handles) {
      const here = `${Math.round(at[0] / cell)},${Math.round(at[1] / cell)}`;
      const isSelected = handle.path.join('.') === selected;
      if (taken.has(here) && !isSelected) continue;
      taken.add(here);
      kept(isSelected ? 'selected' : handle.kind, at);
    }
    const ends = handles.filter(({ handle }) => handle.kind === 'point' || handle.kind === 'line');
    if (ends.length > 0) kept('start', ends[0].at);
    for (const corner of desk.corners.value) kept('area', flat(corner));
    replace(
      sources.handles,
      [...kinds].map(([kind, places]) => {
        const feature = new Feature(new MultiPoint(places));
        feature.set('kind', kind);
        return feature;
      }),
    );
    const areas = areasOf(store.drawing.value).map((rings) => new Polygon(rings.map((ring) => ring.map(flat))));
    const sketch = desk.corners.value.length > 1 ? [new LineString(desk.corners.value.map(flat))] : [];
    replace(sources.drawn, [
      new Feature(new LongLines(chained(edges.map(({ ends: both }) => both)))),
      ...[...areas, ...sketch].map((geometry) => {
        const feature = new Feature<Polygon | LineString>(geometry);
        feature.set('area', 'yes');
        return feature;
      }),
    ]);
  }

  function showBuilt(): void {
    const route = store.laid.value?.route;
    const places = route ? placesOf(route, 0, route.length) : [];
    replace(sources.built, places.length > 1 ? [new Feature(new LongLines([places])), ...arrowsOf(places)] : []);
  }

  function placesOf({ lon, lat, alongTrack }: Route, from: number, to: number): Coordinate[] {
    const places: Coordinate[] = [];
    for (let i = 0; i < lon.length; i++) {
      // the vertices before and after too
      if (alongTrack[Math.min(i + 1, lon.length - 1)] < from || alongTrack[Math.max(i - 1, 0)] > to) continue;
      places.push(flat([lon[i], lat[i]]));
    }
    return places;
  }

  function showRecordings(): void {
    replace(
      sources.recordings,
      desk.recordings.value.map((recording) => {
        const pieces: Coordinate[][] = [];
        for (let i = 0; i < recording.lon.length; i++) {
          if (i === 0 || recording.gapBefore[i] === 1) pieces.push([]);
          if (Number.isFinite(recording.lon[i]) && Math.abs(recording.lat[i]) <= 90)
            pieces[pieces.length - 1].push(flat([recording.lon[i], recording.lat[i]]));
        }
        return new Feature(new LongLines(pieces.filter((piece) => piece.length > 1)));
      }),
    );
  }

  function showSurroundings(): void {
    replace(
      sources.surroundings,
      geometriesOf(desk.surroundings.value).flatMap((geometry) => flatGeometry(geometry)),
    );
  }

  function flatGeometry(geometry: Geometry): Feature[] {
    switch (geometry.type) {
      case 'Point':
        return [new Feature(new Point(flat(geometry.coordinates)))];
      case 'MultiPoint':
        return [new Feature(new MultiPoint(geometry.coordinates.map(flat)))];
      case 'LineString':
        return [new Feature(new LineString(geometry.coordinates.map(flat)))];
      case 'MultiLineString':
        return [new Feature(new MultiLineString(geometry.coordinates.map((line) => line.map(flat))))];
      case 'Polygon':
        return [new Feature(new Polygon(geometry.coordinates.map((ring) => ring.map(flat))))];
      case 'MultiPolygon':
        return geometry.coordinates.map((rings) => new Feature(new Polygon(rings.map((ring) => ring.map(flat)))));
      case 'GeometryCollection':
        return geometry.geometries.flatMap(flatGeometry);
    }
  }

  function showPicture(): void {
    const placed = store.picture.value;
    const fit = placed && fitPicture(placed.points, plane.toPlane);
    pictureLayer.setVisible(fit !== null);
    if (!placed || !fit) return;
    const address = addressOf(placed.file);
    if (picture.src !== address) {
      picture.src = address;
      picture.onload = () => pictureLayer.getSource()?.changed();
    }
    pictureLayer.setSource(
      new ImageCanvas({
        projection: map.getView().getProjection(),
        ratio: 1,
        canvasFunction: (extent, resolution, ratio, size) => {
          const canvas = document.createElement('canvas');
          [canvas.width, canvas.height] = [Math.round(size[0]), Math.round(size[1])];
          const context = canvas.getContext('2d')!;
          const scale = ratio / resolution;
          // from picture elements to the plane, and from there to the canvas, whose rows run down
          context.setTransform(
            fit.a * scale,
            -fit.b * scale,
            fit.c * scale,
            -fit.d * scale,
            (fit.e - extent[0]) * scale,
            (extent[3] - fit.f) * scale,
          );
          if (picture.complete && picture.naturalWidth > 0)
            context.drawImage(picture, 0, 0, placed.width, placed.height);
          return canvas;
        },
      }),
    );
  }

  function showGrid(): void {
    const view = map.getView();
    const size = map.getSize();
    if (!size) return;
    const resolution = view.getResolution() ?? 1;
    const [west, south, east, north] = view.calculateExtent(size);
    const { spacing, lines } = gridLines([west, south, east, north], resolution * 100);
    replace(sources.grid, [new Feature(new MultiLineString(lines))]);
    desk.spacing.value = spacing;
    desk.middle.value = plane.toPosition(view.getCenter() ?? [0, 0]);
  }

  function showStretch(): void {
    const stretch = desk.shown.value;
    const route = store.laid.peek()?.route;
    sources.shown.clear();
    if (!stretch || !route) return;
    const places = placesOf(route, stretch.from, stretch.to);
    sources.shown.addFeatures([
      new Feature(stretch.to - stretch.from > 0.5 ? new LineString(places) : new Point(places[0])),
    ]);
    bringIntoView(sources.shown.getExtent(), 60);
    // the button may stand where the map can't be seen
    target.scrollIntoView({ block: 'nearest' });
  }

  // — where the map looks —

  function viewOf({ origin }: MapPlane): View {
    const projection = new Projection({ code: `plane about ${origin.join()}`, units: 'm' });
    projection.setGetPointResolution((resolution) => resolution);
    return new View({
      projection,
      center: [0, 0],
      resolution: EMPTY_WIDTH / Math.max(target.clientWidth, 300),
      minResolution: 0.002,
      maxResolution: 20000,
      enableRotation: false,
    });
  }

  function moveTo(origin: Position): void {
    plane = mapPlane(origin);
    known = new WeakMap();
    settled = true;
    map.setView(viewOf(plane));
    map.getView().on('change', () => requestGrid());
    // whoever asked for it is not to be asked again for all that is shown
    untracked(() => {
      for (const show of [showDrawing, showBuilt, showRecordings, showSurroundings, showPicture, showGrid]) show();
    });
  }

  function bringIntoView(extent: Extent | null, least = 30): void {
    if (!extent || isEmpty(extent)) return;
    const size = Math.max(getWidth(extent), getHeight(extent), least);
    const [x, y] = getCenter(extent);
    const wide: Extent = [x - size / 2, y - size / 2, x + size / 2, y + size / 2];
    const box = Math.max(getWidth(extent), getHeight(extent)) < least ? wide : extent;
    map.getView().fit(box, { padding: [40, 40, 40, 40] });
  }

  /** About what the map should have its middle where it has none, or one far from there. */
  function settle(position: Position | undefined): boolean {
    if (position === undefined || !Number.isFinite(position[0])) return false;
    if (settled && Math.hypot(...flat(position)) < FAR) return false;
    moveTo(position);
    return true;
  }

  const wholeExtent = () => {
    const extent = createEmpty();
    for (const { at } of handles) extend(extent, [...at, ...at]);
    for (const source of [sources.built]) if (source.getFeatures().length > 0) extend(extent, source.getExtent()!);
    return extent;
  };

  let asked = 0;
  const requestGrid = () => {
    cancelAnimationFrame(asked);
    asked = requestAnimationFrame(showGrid);
  };

  // — what is done on it —

  /** What a press has taken hold of. */
  let held: {
    readonly handle: Pick<Handle, 'path' | 'vertex' | 'position'>;
    readonly base: Drawing;
    moved: Drawing;
    readonly did: string;
  } | null = null;

  let previewing = 0;
  const penAt = (path: StepPath) => {
    const key = path.join('.');
    return desk.handles.value.edges.find((edge) => edge.vertex === undefined && edge.path.join('.') === key)?.from;
  };

  const hold = new PointerInteraction({
    handleDownEvent(event) {
      if (desk.tool.value !== 'change' || desk.fixed.value) return false;
      const found = handleNear(event.coordinate);
      const base = store.drawing.value;
      if (found) {
        desk.selected.value = found.handle.path;
        held = { handle: found.handle, base, moved: base, did: 'moved' };
        return true;
      }
      const edge = edgeNear(event.coordinate);
      if (!edge) return false;
      const position = plane.toPosition(edge.foot);
      const { drawing, path, vertex } = insertPoint(base, edge.edge, position);
      held = { handle: { path, vertex, position }, base: drawing, moved: drawing, did: 'put in' };
      desk.selected.value = path;
      store.preview(drawing);
      return true;
    },
    handleDragEvent(event) {
      if (!held) return;
      held.moved = movePoint(held.base, held.handle, plane.toPosition(event.coordinate), penAt(held.handle.path));
      // a hand moves more often than the screen is drawn
      if (previewing === 0)
        previewing = requestAnimationFrame(() => {
          previewing = 0;
          if (held) store.preview(held.moved);
        });
    },
    handleUpEvent(event) {
      if (!held) return false;
      const { moved, did, handle } = held;
      held = null;
      store.preview(null);
      const at = shownPosition(plane.toPosition(event.coordinate));
      desk.edit(() => ({ drawing: moved, path: handle.path }), `A point was ${did} at ${at}.`);
      return false;
    },
  });
  map.addInteraction(hold);

  map.on('click', (event: MapBrowserEvent) => {
    const drawing = store.drawing.value;
    const at = event.coordinate;
    const near = handleNear(at);
    const position = near?.handle.position ?? plane.toPosition(at);
    const tool = desk.tool.value;
    if (tool === 'place') {
      const placed = store.picture.value;
      const pin = desk.pin.value;
      if (!placed || !pin) return say('First click the place in the picture.');
      store.picture.value = { ...placed, points: [...placed.points, { ...pin, position }] };
      desk.pin.value = null;
      return say(`Point ${placed.points.length + 1} of the picture placed at ${shownPosition(position)}.`);
    }
    if (tool === 'look' || tool === 'change') return;
    if (desk.fixed.value) return say('This line was made of others and stands as it is.');
    if (tool === 'draw') {
      desk.edit(() => addPoint(drawing, position), `Point added at ${shownPosition(position)}.`);
    } else if (tool === 'mark') {
      const number = drawing.steps.filter(({ call }) => call === 'mark').length + 1;
      const step = { call: 'mark', name: `mark ${number}`, near: position } as const;
      desk.edit(
        () => ({ drawing: spliceSteps(drawing, [drawing.steps.length], 0, step), path: [drawing.steps.length] }),
        `Mark ${number} set at ${shownPosition(position)}.`,
      );
    } else if (tool === 'area') {
      desk.corners.value = [...desk.corners.value, position];
      say(`Corner ${desk.corners.value.length} of the area.`);
    } else if (tool === 'follow') {
      const found = lineNear(at);
      if (!found) return say('No line of the surroundings is here.');
      const step = { call: 'follow', line: found.line } as const;
      desk.edit(
        () => ({ drawing: spliceSteps(drawing, [drawing.steps.length], 0, step), path: [drawing.steps.length] }),
        `Along ${found.name}: give it a distance and a side in the list.`,
      );
    } else if (tool === 'cut') {
      const name = freeSectionName(drawing);
      const did = `${name} begins here; its name can be changed in the list.`;
      if (near && near.handle.kind !== 'mark' && near.handle.kind !== 'area') {
        const { path, vertex } = near.handle;
        const cut = cutSection(drawing, path, name, vertex);
        if (cut === drawing) return say('A line of which only a part is followed can be cut at its ends alone.');
        return desk.edit(() => ({ drawing: cut }), did);
      }
      const edge = edgeNear(at);
      if (!edge) return say('The line is not here: click on it where the section is to begin.');
      desk.edit(() => {
        const put = insertPoint(drawing, edge.edge, plane.toPosition(edge.foot));
        return { drawing: cutSection(put.drawing, put.path, name, put.vertex) };
      }, did);
    }
  });

  function lineNear(at: Coordinate) {
    let [nearest, least] = [undefined as { name: string; line: Position[] } | undefined, reach()];
    for (const one of surroundingLines(desk.surroundings.value)) {
      const places = one.line.map(flat);
      for (let i = 1; i < places.length; i++) {
        const foot = footOn([places[i - 1], places[i]], at);
        const far = Math.hypot(foot[0] - at[0], foot[1] - at[1]);
        if (far < least) [nearest, least] = [one, far];
      }
    }
    return nearest;
  }

  map.on('pointermove', (event: MapBrowserEvent) => {
    if (event.dragging) return;
    const tool = desk.tool.value;
    const found = handleNear(event.coordinate) ?? edgeNear(event.coordinate);
    target.style.cursor = tool === 'look' ? 'grab' : tool === 'change' ? (found ? 'move' : 'grab') : 'crosshair';
  });
  let scale = 0;
  map.on('moveend', () => {
    showGrid();
    const resolution = map.getView().getResolution() ?? 1;
    if (resolution !== scale) showDrawing();
    scale = resolution;
  });

  const scheme = matchMedia('(prefers-color-scheme: dark)');
  const recolour = () => {
    colours = coloursOf(target);
    for (const one of layers) one.changed();
  };
  scheme.addEventListener('change', recolour);
  const resized = new ResizeObserver(() => map.updateSize());
  resized.observe(target);

  /** How many recordings there were. */
  let shown = 0;
  const stops = [
    effect(() => {
      const first = desk.handles.value.handles[0]?.position;
      const laid = store.laid.value;
      const begins = first ?? (laid ? [laid.route.lon[0], laid.route.lat[0]] : undefined);
      if (settle(begins)) bringIntoView(wholeExtent());
      else showDrawing();
    }),
    effect(showBuilt),
    effect(() => {
      const [first] = desk.recordings.value;
      if (settle(first && [first.lon[0], first.lat[0]])) bringIntoView(sources.recordings.getExtent());
      else showRecordings();
    }),
    effect(() => {
      const { changes, present, drawing } = store.history.value;
      const did = changes[present - 1]?.did ?? '';
      // what was changed by key while a point was held is not to come back with it
      held = null;
      // a document that was opened, or what was kept, is to be seen; what is being drawn is
      const came = did.startsWith('Opened') || did.startsWith('Drafted') || (present === 0 && drawing.steps.length > 0);
      if (came) requestAnimationFrame(() => bringIntoView(wholeExtent()));
    }),
    effect(() => {
      const { length } = desk.recordings.value;
      // those that came, not those of which only a name has changed
      if (length > shown && sources.recordings.getFeatures().length > 0) bringIntoView(sources.recordings.getExtent());
      shown = length;
    }),
    effect(() => {
      showSurroundings();
      const extent = sources.surroundings.getExtent();
      if (settled || !extent || isEmpty(extent)) return;
      moveTo(plane.toPosition(getCenter(extent)));
      bringIntoView(sources.surroundings.getExtent());
    }),
    effect(showPicture),
    effect(showStretch),
    effect(() => {
      const { to } = desk.goTo.value ?? {};
      if (to === 'line') bringIntoView(wholeExtent());
      else if (to === 'recordings') bringIntoView(sources.recordings.getExtent());
      else if (to !== undefined && !settle(to)) map.getView().setCenter(flat(to));
    }),
  ];
  return () => {
    for (const stop of stops) stop();
    scheme.removeEventListener('change', recolour);
    resized.disconnect();
    map.setTarget(undefined);
  };
}

function replace(source: VectorSource, features: readonly Feature[]): void {
  source.clear(true);
  source.addFeatures([...features]);
}

/** Edges that go on from one another as one line. */
function chained(edges: readonly (readonly [Coordinate, Coordinate])[]): Coordinate[][] {
  const lines: Coordinate[][] = [];
  for (const [from, to] of edges) {
    const line = lines[lines.length - 1];
    const [east, north] = line?.[line.length - 1] ?? [];
    if (east === from[0] && north === from[1]) line.push(to);
    else lines.push([from, to]);
  }
  return lines;
}

/** The place of a straight edge nearest to another. */
function footOn([from, to]: readonly [Coordinate, Coordinate], at: Coordinate): Coordinate {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const square = dx * dx + dy * dy;
  const share = square > 0 ? ((at[0] - from[0]) * dx + (at[1] - from[1]) * dy) / square : 0;
  const within = Math.max(0, Math.min(1, share));
  return [from[0] + within * dx, from[1] + within * dy];
}

/** The rings of every area that names a section. */
function areasOf(drawing: Drawing): Position[][][] {
  return drawing.steps.flatMap((step) => {
    if (step.call !== 'section' || !step.inside) return [];
    return step.inside.type === 'Polygon' ? [step.inside.coordinates] : step.inside.coordinates;
  });
}

/** The geometries of a GeoJSON document, one by one. */
function geometriesOf(json: GeoJSON | null): Geometry[] {
  if (json === null) return [];
  if (json.type === 'FeatureCollection') return json.features.flatMap(geometriesOf);
  if (json.type === 'Feature') return json.geometry ? [json.geometry] : [];
  return [json];
}

interface Colours {
  readonly ink: string;
  readonly quiet: string;
  readonly edge: string;
  readonly ground: string;
  readonly care: string;
  readonly drawn: string;
  readonly built: string;
}

/** The page's colours as they are now, light or dark, in a form that a canvas takes. */
function coloursOf(element: HTMLElement): Colours {
  const probe = element.appendChild(document.createElement('span'));
  const read = (name: string) => {
    probe.style.color = `var(--${name})`;
    const [red, green, blue] = getComputedStyle(probe).color.match(/[\d.]+/g) ?? ['0', '0', '0'];
    return `#${[red, green, blue].map((part) => Math.round(Number(part)).toString(16).padStart(2, '0')).join('')}`;
  };
  const names = ['ink', 'quiet', 'edge', 'ground', 'care', 'drawn', 'built'] as const;
  const colours = Object.fromEntries(names.map((name) => [name, read(name)]));
  probe.remove();
  return colours as unknown as Colours;
}

/** How many arrows tell the direction of travel. */
const ARROWS = 12;

/** Points along a line, each with the direction of travel there in radians from north. */
function arrowsOf(places: readonly Coordinate[]): Feature[] {
  const along = [0];
  for (let i = 1; i < places.length; i++) {
    along.push(along[i - 1] + Math.hypot(places[i][0] - places[i - 1][0], places[i][1] - places[i - 1][1]));
  }
  const arrows: Feature[] = [];
  let next = 0.5;
  for (let i = 1; i < places.length; i++) {
    if (along[i] < (next / ARROWS) * along[along.length - 1]) continue;
    const [from, to] = [places[i - 1], places[i]];
    const feature = new Feature(new Point([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]));
    feature.set('turn', Math.atan2(to[0] - from[0], to[1] - from[1]));
    arrows.push(feature);
    while (next < ARROWS && along[i] >= (next / ARROWS) * along[along.length - 1]) next++;
    if (next >= ARROWS) break;
  }
  return arrows;
}

function builtStyle(feature: Feature, { built, ground }: Colours): Style {
  const turn: number | undefined = feature.get('turn');
  if (turn === undefined) return new Style({ stroke: new Stroke({ color: built, width: 4 }) });
  return new Style({
    zIndex: 1,
    image: new RegularShape({
      points: 3,
      radius: 7,
      rotation: turn,
      fill: new Fill({ color: built }),
      stroke: new Stroke({ color: ground, width: 1 }),
    }),
  });
}

function handleStyle(feature: Feature, { drawn, ground, care, ink }: Colours): Style {
  const kind: string = feature.get('kind');
  const colour = kind === 'mark' ? ink : kind === 'selected' ? care : drawn;
  const filled = kind === 'selected' || kind === 'start' || kind === 'mark';
  return new Style({
    zIndex: kind === 'selected' ? 2 : kind === 'start' ? 1 : 0,
    image: new CircleStyle({
      radius: kind === 'selected' ? 8 : kind === 'start' ? 6 : kind === 'line' || kind === 'area' ? 4 : 5,
      fill: new Fill({ color: filled ? colour : ground }),
      stroke: new Stroke({ color: colour, width: 2 }),
    }),
  });
}
