/**
 * Speed returns to the pace within about this many seconds, and strays from it by this share: more would follow the
 * errors of the receiver, and lose a tenth of what their persistence gives away (measured at sigma 10 m).
 */
const PACE_TIME = 30;
const PACE_SHARE = 0.15;
const SLOWEST_STRAY = 0.3;

/** Seconds to either side of a step whose places say how fast it was: errors of 10 m blur that by a tenth of a run. */
const AROUND = 12;

/** Seconds in which the error of a receiver forgets itself. */
const CORRELATION = 25;

/** What a place along the route is uncertain by besides the error that persists, metres. */
const ROUGH = 2;

/**
 * Where the body was along the route at each knot, metres, from where its fixes lay: a body has a speed that changes
 * little within seconds, a receiver an error that persists for half a minute, and the two are told apart by that.
 *
 * @param clock - Seconds at each knot, never falling.
 * @param along - Metres along the route of the foot of each knot.
 * @param sigma - Standard deviation of the receiver's error along the route at each knot, metres.
 * @remarks Kalman filter and Rauch–Tung–Striebel smoother over place, speed and error; a step that no speed explains (a
 * stretch left out) starts anew.
 * @see Rauch, Tung & Striebel, Maximum likelihood estimates of linear dynamic systems, AIAA J. 3 (1965), doi:10.2514/3.3166
 */
export function bodyMotion(clock: Float64Array, along: Float64Array, sigma: Float64Array): Float64Array {
  const n = along.length;
  const body = new Float64Array(n);
  const speeds: number[] = [];
  for (let k = 1; k < n; k++) {
    const seconds = clock[k] - clock[k - 1];
    if (seconds > 0) speeds.push((along[k] - along[k - 1]) / seconds);
  }
  speeds.sort((a, b) => a - b);
  const pace = speeds.length > 0 ? Math.max(speeds[speeds.length >> 1], 0) : 0;
  const stray = Math.max(PACE_SHARE * pace, SLOWEST_STRAY);
  for (let from = 0; from < n; ) {
    let to = from + 1;
    while (to < n && explained(clock[to] - clock[to - 1], along[to] - along[to - 1], pace, sigma[to])) to++;
    const paces = pacesOf(from, to, clock, along, pace);
    smooth(body, from, to, clock, along, sigma, paces, stray);
    from = to;
  }
  return body;
}

/**
 * The speed to be expected of each step: the pace of the whole, or what the places around it say where that is far from
 * it: a stop, a way back.
 */
function pacesOf(from: number, to: number, clock: Float64Array, along: Float64Array, pace: number): Float64Array {
  const paces = new Float64Array(to - from);
  let a = from;
  let b = from;
  for (let k = from + 1; k < to; k++) {
    while (a < k - 1 && clock[a] < clock[k - 1] - AROUND) a++;
    while (b < to - 1 && (b < k || clock[b + 1] <= clock[k] + AROUND)) b++;
    const seconds = clock[b] - clock[a];
    const seen = seconds > 0 ? (along[b] - along[a]) / seconds : pace;
    paces[k - from] = seconds < AROUND || Math.abs(seen - pace) <= pace / 2 ? pace : seen;
  }
  return paces;
}

function explained(seconds: number, moved: number, pace: number, sigma: number): boolean {
  return Math.abs(moved - pace * seconds) <= 2 * pace * seconds + 4 * (sigma + ROUGH);
}

function smooth(
  body: Float64Array,
  from: number,
  to: number,
  clock: Float64Array,
  along: Float64Array,
  sigma: Float64Array,
  paces: Float64Array,
  stray: number,
): void {
  const size = to - from;
  // for each knot: place, speed over the pace, error (3), their covariance (9), both before (predicted) and after the fix
  const filtered = new Float64Array(12 * size);
  const predicted = new Float64Array(12 * size);
  const F = new Float64Array(9);
  for (let k = 0; k < size; k++) {
    const p = 12 * k;
    const error = sigma[from + k] ** 2;
    if (k === 0) {
      predicted[0] = along[from];
      predicted[3] = 1e6;
      predicted[7] = stray * stray;
      predicted[11] = error;
    } else {
      const seconds = Math.max(clock[from + k] - clock[from + k - 1], 0);
      const { keep, forget, reach } = transition(F, seconds);
      const q = 12 * (k - 1);
      multiplyState(F, filtered, q, predicted, p);
      predicted[p] += paces[k] * seconds;
      const noise = stray * stray * (1 - keep * keep);
      // the wander of the speed within the step, carried into the place: the integral of an Ornstein–Uhlenbeck process
      predicted[p + 3] += 2 * stray * stray * PACE_TIME * (seconds - reach) - stray * stray * reach * reach;
      predicted[p + 4] += stray * stray * (1 - keep) ** 2 * PACE_TIME;
      predicted[p + 6] += stray * stray * (1 - keep) ** 2 * PACE_TIME;
      predicted[p + 7] += noise;
      predicted[p + 11] += error * (1 - forget * forget);
    }
    update(predicted, filtered, p, along[from + k]);
  }
  let later = filtered.slice(12 * (size - 1));
  body[to - 1] = later[0];
  for (let k = size - 2; k >= 0; k--) {
    const p = 12 * k;
    transition(F, Math.max(clock[from + k + 1] - clock[from + k], 0));
    const gain = smootherGain(filtered, p, F, predicted, p + 12);
    const earlier = filtered.slice(p, p + 3);
    for (let row = 0; row < 3; row++) {
      for (let column = 0; column < 3; column++) {
        earlier[row] += gain[3 * row + column] * (later[column] - predicted[p + 12 + column]);
      }
    }
    body[from + k] = earlier[0];
    later = earlier;
  }
}

function transition(F: Float64Array, seconds: number): { keep: number; forget: number; reach: number } {
  const keep = Math.exp(-seconds / PACE_TIME);
  const forget = Math.exp(-seconds / CORRELATION);
  const reach = PACE_TIME * (1 - keep);
  F.set([1, reach, 0, 0, keep, 0, 0, 0, forget]);
  return { keep, forget, reach };
}

/** F x and F P Fᵀ. */
function multiplyState(F: Float64Array, from: Float64Array, at: number, into: Float64Array, to: number): void {
  for (let i = 0; i < 3; i++) {
    into[to + i] = F[3 * i] * from[at] + F[3 * i + 1] * from[at + 1] + F[3 * i + 2] * from[at + 2];
    for (let j = 0; j < 3; j++) {
      let sum = 0;
      for (let a = 0; a < 3; a++) {
        for (let b = 0; b < 3; b++) sum += F[3 * i + a] * from[at + 3 + 3 * a + b] * F[3 * j + b];
      }
      into[to + 3 + 3 * i + j] = sum;
    }
  }
}

/** The fix lies at place plus error. */
function update(predicted: Float64Array, filtered: Float64Array, p: number, along: number): void {
  const P = (i: number, j: number) => predicted[p + 3 + 3 * i + j];
  const gain = [0, 1, 2].map((i) => P(i, 0) + P(i, 2));
  const variance = gain[0] + gain[2] + ROUGH * ROUGH;
  const surprise = along - predicted[p] - predicted[p + 2];
  for (let i = 0; i < 3; i++) {
    filtered[p + i] = predicted[p + i] + (gain[i] / variance) * surprise;
    for (let j = 0; j < 3; j++) filtered[p + 3 + 3 * i + j] = P(i, j) - (gain[i] * gain[j]) / variance;
  }
}

/** P Fᵀ Q⁻¹ for the filtered covariance P and the predicted one Q of the next knot. */
function smootherGain(
  filtered: Float64Array,
  p: number,
  F: Float64Array,
  predicted: Float64Array,
  q: number,
): number[] {
  const Q = (i: number, j: number) => predicted[q + 3 + 3 * (i % 3) + (j % 3)];
  const minor = (i: number, j: number) => Q(i + 1, j + 1) * Q(i + 2, j + 2) - Q(i + 1, j + 2) * Q(i + 2, j + 1);
  const determinant = Q(0, 0) * minor(0, 0) + Q(0, 1) * minor(0, 1) + Q(0, 2) * minor(0, 2);
  const gain: number[] = [];
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      let sum = 0;
      for (let a = 0; a < 3; a++) {
        let carried = 0;
        for (let b = 0; b < 3; b++) carried += filtered[p + 3 + 3 * i + b] * F[3 * a + b];
        sum += carried * minor(j, a);
      }
      gain.push(sum / determinant);
    }
  }
  return gain;
}
