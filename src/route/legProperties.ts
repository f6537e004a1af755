import type { Feature } from 'geojson';
import { checkNumber, type Drafted, InputError, parseTime } from '../model';
import { checkDrafted } from './checkDrafted';

const legNumbers = ['halfWidth', 'offset', 'laps', 'lateral95', 'epoch'] as const;
const legTexts = ['section', 'side', 'environment', 'source', 'date', 'licence', 'frame'] as const;

/** What a feature drawn in a map editor says of itself. */
export type LegProperties = { readonly drafted?: Drafted } & {
  readonly [K in (typeof legNumbers)[number]]?: number;
} & {
  readonly [K in (typeof legTexts)[number] | 'name']?: string;
};

/** Every property that is read of a drawn feature. */
export const knownProperties: readonly string[] = [...legNumbers, ...legTexts, 'drafted', 'name', 'time'];

export const isKnownProperty = (key: string) => knownProperties.includes(key);

/**
 * The properties this library knows, numbers written as text read as numbers; empty ones left out.
 *
 * @throws {InputError} naming the property
 */
export function propertiesOf(feature: Feature, argument: string): LegProperties {
  const given = (feature?.properties ?? {}) as Record<string, unknown>;
  const properties: Record<string, unknown> = {};
  for (const key of [...legNumbers, ...legTexts, 'name'] as const) {
    const value = given[key];
    if (value === undefined || value === null || value === '') continue;
    const path = `${argument} properties.${key}`;
    if ((legNumbers as readonly string[]).includes(key)) {
      const number = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
      if (Number.isNaN(number)) throw new InputError({ reason: 'wrong-type', argument: path, rule: 'a number', value });
      properties[key] = checkNumber(number, path, numberRules[key as keyof typeof numberRules]);
    } else if (typeof value === 'string' || Number.isFinite(value)) properties[key] = String(value);
    else throw new InputError({ reason: 'wrong-type', argument: path, rule: 'a string', value });
  }
  if (given.drafted !== undefined && given.drafted !== null && given.drafted !== '') {
    const path = `${argument} properties.drafted`;
    const drafted = typeof given.drafted === 'string' ? jsonOf(given.drafted, path) : given.drafted;
    checkDrafted(drafted, path);
    properties.drafted = drafted;
  }
  return properties;
}

/** What an editor that knows only text has made text of. */
function jsonOf(text: string, argument: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new InputError({ reason: 'unreadable', argument, rule: 'JSON', value: text });
  }
}

const numberRules = {
  halfWidth: { above: 0 },
  offset: { min: 0 },
  laps: { min: 1, integer: true },
  lateral95: { min: 0 },
  epoch: {},
};

/**
 * When a mark was passed, milliseconds since the Unix epoch; nothing where it doesn't say.
 *
 * @throws {InputError} a time that can't be read, or without its zone
 */
export function timeOf(feature: Feature, argument: string): { time?: number } {
  const given: unknown = feature.properties?.time;
  if (given === undefined || given === null || given === '') return {};
  const time = typeof given === 'string' && !/^-?\d+$/.test(given) ? parseTime(given) : Number(given);
  if (Number.isNaN(time)) {
    const rule = 'ISO 8601 with its zone, or milliseconds since the Unix epoch';
    throw new InputError({ reason: 'wrong-type', argument: `${argument} properties.time`, rule, value: given });
  }
  return { time };
}
