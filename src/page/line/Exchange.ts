import { spliced } from './spliced';

/** What of a list gave way to what. Where that is one member, which differs in a list of its own alone, what of that list did. */
export type Exchange =
  | { readonly at: number; readonly out: readonly unknown[]; readonly put: readonly unknown[] }
  | { readonly at: number; readonly in: string; readonly of: Exchange };

/** What makes one list of another; members that are the same objects stay. */
export function exchangeOf(before: readonly unknown[], after: readonly unknown[]): Exchange {
  const most = Math.min(before.length, after.length);
  let at = 0;
  while (at < most && before[at] === after[at]) at++;
  let end = 0;
  while (end < most - at && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  const out = before.slice(at, before.length - end);
  const put = after.slice(at, after.length - end);
  const key = out.length === 1 && put.length === 1 ? listThatDiffers(out[0], put[0]) : undefined;
  if (key === undefined) return { at, out, put };
  const [one, other] = [out[0], put[0]] as Holder[];
  return { at, in: key, of: exchangeOf(one[key] as unknown[], other[key] as unknown[]) };
}

/** The list with an exchange made, or taken back. */
export function exchanged<T>(list: readonly T[], exchange: Exchange, way: 'forth' | 'back'): T[] {
  const { at } = exchange;
  if ('in' in exchange) {
    const holder = list[at] as Holder;
    const within = exchanged(holder[exchange.in] as unknown[], exchange.of, way);
    return spliced(list, at, 1, { ...holder, [exchange.in]: within } as T);
  }
  const [out, put] = way === 'forth' ? [exchange.out, exchange.put] : [exchange.put, exchange.out];
  return [...list.slice(0, at), ...(put as T[]), ...list.slice(at + out.length)];
}

type Holder = Readonly<Record<string, unknown>>;

/** The list in which alone two objects differ. */
function listThatDiffers(one: unknown, other: unknown): string | undefined {
  if (!isHolder(one) || !isHolder(other)) return undefined;
  const keys = Object.keys(one);
  const others = Object.keys(other);
  if (keys.length !== others.length || keys.some((key, i) => key !== others[i])) return undefined;
  const [key, ...more] = keys.filter((name) => one[name] !== other[name]);
  return more.length === 0 && Array.isArray(one[key]) && Array.isArray(other[key]) ? key : undefined;
}

function isHolder(value: unknown): value is Holder {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
