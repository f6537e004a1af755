import type { Position } from 'geojson';
import { InputError } from '../model';
import type { Area } from './Area';
import { AreaIndex } from './AreaIndex';
import type { NamedArea } from './AreaRings';
import { checkAreas } from './checkAreas';
import { degreeMetres } from './degreeMetres';
import { Region } from './Region';

/** Metres about a line in which areas can have to do with it. */
const NEAR = 1000;

/** The areas about a line: of each kind together, and one by one. */
export class Ground {
  readonly index: AreaIndex;
  /** Null where no area is of the kind. */
  readonly allowed: Region | null;
  readonly impossible: Region | null;
  /** Whether any polygon lies within a kilometre of the box about the line. */
  readonly isNear: boolean;
  readonly #regions = new Map<number, Region>();

  /**
   * @param line - What the areas are to be about; at least one vertex.
   * @throws {InputError} as {@link checkAreas}; `swapped` where all lie far from the line and with longitude and latitude
   * exchanged some would lie near it
   */
  constructor(given: readonly Area[], argument: string, line: { lon: ArrayLike<number>; lat: ArrayLike<number> }) {
    const rings = checkAreas(given, argument);
    this.index = new AreaIndex(rings, line.lon[0]);
    const { areas } = this.index;
    const ofKind = (kind: NamedArea['kind']) => {
      const mine = [...areas.keys()].filter((area) => areas[area].kind === kind);
      return mine.length > 0 ? new Region(this.index, mine) : null;
    };
    this.allowed = ofKind('allowed');
    this.impossible = ofKind('impossible');
    const box = boxAbout(line);
    this.isNear = this.index.polygonsIn(box).length > 0;
    if (this.isNear) return;
    const swapped = rings.polygons.findIndex(({ rings: [outer] }) => outer.some((position) => holds(box, position)));
    if (swapped < 0) return;
    const [longitude, latitude] = rings.polygons[swapped].rings[0][0];
    throw new InputError({
      reason: 'swapped',
      argument: `${argument}: a polygon of “${areas[rings.polygons[swapped].area].name}”`,
      rule: 'near the route',
      value: [longitude, latitude],
      hint: 'Positions are [longitude, latitude]; these two look swapped',
    });
  }

  /** One area alone. */
  region(area: number): Region {
    const { areas } = this.index;
    let region = this.#regions.get(area);
    if (!region) {
      const all = this[areas[area].kind];
      region = all?.onlyArea === area ? all : new Region(this.index, [area]);
      this.#regions.set(area, region);
    }
    return region;
  }
}

function boxAbout({ lon, lat }: { lon: ArrayLike<number>; lat: ArrayLike<number> }) {
  let [minX, minY, maxX, maxY] = [lon[0], lat[0], lon[0], lat[0]];
  for (let i = 1; i < lon.length; i++) {
    minX = Math.min(minX, lon[i]);
    maxX = Math.max(maxX, lon[i]);
    minY = Math.min(minY, lat[i]);
    maxY = Math.max(maxY, lat[i]);
  }
  const { east, north } = degreeMetres(Math.max(Math.abs(minY), Math.abs(maxY)));
  return {
    minX: minX - NEAR / east,
    minY: minY - NEAR / north,
    maxX: maxX + NEAR / east,
    maxY: maxY + NEAR / north,
  };
}

/** Whether a position lies in a box once its two numbers are exchanged. */
function holds({ minX, minY, maxX, maxY }: ReturnType<typeof boxAbout>, [latitude, longitude]: Position): boolean {
  return longitude >= minX && longitude <= maxX && latitude >= minY && latitude <= maxY;
}
