import { snap } from '../../src/subpaths/snap';
import { hardRides, wrongLaps } from '../../test/support/hardRides';
import { judgePlacing } from '../../test/support/judgePlacing';

/** What became of the rides of one kind. */
export interface KindOfRide {
  readonly name: string;
  readonly rides: number;
  /** Rides with more than two fixes on another pass, and of these the ones whose wrong fixes all say that they are unsure. */
  readonly strayed: number;
  readonly flagged: number;
  /** Shares of the fixes: on their pass, with a confidence of 0.9 or more, said to be off the route. */
  readonly right: number;
  readonly sure: number;
  readonly off: number;
}

/** Of the fixes that are sure by so much: what share of all they are, and how many of them are right. */
export interface Reliability {
  readonly least: number;
  readonly share: number;
  readonly right: number;
}

/** So many hard rides of each kind, placed and held against the truth. */
export function placingTrials(
  count: number,
  begin: number,
): { readonly kinds: readonly KindOfRide[]; readonly reliability: readonly Reliability[] } {
  const all: { readonly confidence: number; readonly right: boolean }[] = [];
  const makers = { ...hardRides, 'laps left out or ridden again': wrongLaps };
  const kinds = Object.entries(makers).map(([name, make]): KindOfRide => {
    const judged = make(count, begin).map((ride) => judgePlacing(ride, snap(ride.route, ride.recording)));
    const told = judged.flatMap((one) => one.told);
    for (const one of told) all.push(one);
    const strayed = judged.filter(({ elsewhere }) => elsewhere > 2);
    const off = judged.reduce((sum, one) => sum + one.off, 0);
    return {
      name,
      rides: judged.length,
      strayed: strayed.length,
      flagged: strayed.filter(({ unflagged }) => unflagged === 0).length,
      right: share(told, ({ right }) => right),
      sure: share(told, ({ confidence }) => confidence >= 0.9),
      off: off / (off + told.length),
    };
  });
  const reliability = [0, 0.5, 0.7, 0.9, 0.99].map((least): Reliability => {
    const sure = all.filter(({ confidence }) => confidence >= least);
    return { least, share: sure.length / all.length, right: share(sure, ({ right }) => right) };
  });
  return { kinds, reliability };
}

function share<T>(values: readonly T[], holds: (value: T) => boolean): number {
  return values.length > 0 ? values.filter(holds).length / values.length : 1;
}
