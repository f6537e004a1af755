import { upperMedian } from './upperMedian';

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

/** Numbers kept of each knot: place, speed over the pace, error, and the upper half of their covariance. */
const KEPT = 9;

/** What so many seconds leave of the speed over the pace and of the error: most often the same as the step before. */
interface Decay {
  seconds: number;
  speed: number;
  error: number;
}

/** Knots smoothed at a time: of those before only the first of each so many is kept, and the others are filtered again. */
const BLOCK = 64;

/**
 * Where the body was along the route at each knot, metres, from where its fixes lay: a body has a speed that changes
 * little within seconds, a receiver an error that persists for half a minute, and the two are told apart by that.
 *
 * @param clock - Seconds at each knot, never falling.
 * @param along - Metres along the route of the foot of each knot.
 * @param sigma - Standard deviation of the receiver's error along the route at each knot, metres.
 * @param skips - 1 at knots before which the body left one part of the route for another: there it starts anew.
 * @remarks Kalman filter and Rauch–Tung–Striebel smoother over place, speed and error; a step that no speed explains (a
 * stretch left out) starts anew.
 * @see Rauch, Tung & Striebel, Maximum likelihood estimates of linear dynamic systems, AIAA J. 3 (1965), doi:10.2514/3.3166
 */
export function bodyMotion(
  clock: Float64Array,
  along: Float64Array,
  sigma: Float64Array,
  skips: Uint8Array,
): Float64Array {
  const n = along.length;
  const body = new Float64Array(n);
  const speeds = new Float64Array(Math.max(n - 1, 0));
  let count = 0;
  for (let k = 1; k < n; k++) {
    const seconds = clock[k] - clock[k - 1];
    if (seconds > 0) speeds[count++] = Math.fround((along[k] - along[k - 1]) / seconds);
  }
  const pace = count > 0 ? Math.max(upperMedian(speeds.subarray(0, count)), 0) : 0;
  const stray = Math.max(PACE_SHARE * pace, SLOWEST_STRAY) ** 2;
  for (let from = 0; from < n; ) {
    let to = from + 1;
    while (
      to < n &&
      skips[to] === 0 &&
      explained(clock[to] - clock[to - 1], along[to] - along[to - 1], pace, sigma[to])
    )
      to++;
    smooth(body, from, to, clock, along, sigma, pacesOf(from, to, clock, along, pace), stray);
    from = to;
  }
  return body;
}

/**
 * The speed to be expected of each step: the pace of the whole, or what the places around it say where that is far from
 * it: a stop, a way back.
 */
function pacesOf(from: number, to: number, clock: Float64Array, along: Float64Array, pace: number): Float32Array {
  const paces = new Float32Array(to - from);
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
  paces: Float32Array,
  stray: number,
): void {
  const size = to - from;
  const state = new Float64Array(KEPT);
  const decay: Decay = { seconds: 0, speed: 1, error: 1 };
  const filter = (k: number) => {
    const error = sigma[from + k] ** 2;
    if (k === 0) state.set([along[from], 0, 0, 1e6, 0, 0, stray, 0, error]);
    else predict(state, decay, clock[from + k] - clock[from + k - 1], paces[k], stray, error);
    update(state, along[from + k]);
  };
  const begun = new Float64Array(KEPT * Math.ceil(size / BLOCK));
  for (let k = 0; k < size; k++) {
    filter(k);
    if (k % BLOCK === 0) begun.set(state, (KEPT * k) / BLOCK);
  }
  let place = state[0];
  let speed = state[1];
  let error = state[2];
  body[to - 1] = place;
  const filtered = new Float64Array(KEPT * Math.min(BLOCK, size));
  for (let first = size - 1 - ((size - 1) % BLOCK); first >= 0; first -= BLOCK) {
    const end = Math.min(first + BLOCK, size - 1);
    for (let i = 0; i < KEPT; i++) filtered[i] = state[i] = begun[(KEPT * first) / BLOCK + i];
    for (let k = first + 1; k < end; k++) {
      filter(k);
      filtered.set(state, KEPT * (k - first));
    }
    for (let k = end - 1; k >= first; k--) {
      const p = KEPT * (k - first);
      for (let i = 0; i < KEPT; i++) state[i] = filtered[p + i];
      const seconds = clock[from + k + 1] - clock[from + k];
      predict(state, decay, seconds, paces[k + 1], stray, sigma[from + k + 1] ** 2);
      // y = Q⁻¹ (smoothed − predicted) of the next knot; then here P Fᵀ y is what the later fixes add
      const r0 = place - state[0];
      const r1 = speed - state[1];
      const r2 = error - state[2];
      const a = state[3];
      const b = state[4];
      const c = state[5];
      const d = state[6];
      const e = state[7];
      const f = state[8];
      const A = d * f - e * e;
      const B = c * e - b * f;
      const C = b * e - c * d;
      const D = a * f - c * c;
      const E = b * c - a * e;
      const G = a * d - b * b;
      const determinant = a * A + b * B + c * C;
      const y0 = (A * r0 + B * r1 + C * r2) / determinant;
      const y1 = (B * r0 + D * r1 + E * r2) / determinant;
      const y2 = (C * r0 + E * r1 + G * r2) / determinant;
      const v1 = PACE_TIME * (1 - decay.speed) * y0 + decay.speed * y1;
      const v2 = decay.error * y2;
      place = filtered[p] + filtered[p + 3] * y0 + filtered[p + 4] * v1 + filtered[p + 5] * v2;
      speed = filtered[p + 1] + filtered[p + 4] * y0 + filtered[p + 6] * v1 + filtered[p + 7] * v2;
      error = filtered[p + 2] + filtered[p + 5] * y0 + filtered[p + 7] * v1 + filtered[p + 8] * v2;
      body[from + k] = place;
    }
  }
}

/** The state so many seconds on: speed and error are Ornstein–Uhlenbeck processes, the place is the integral of speed. */
function predict(state: Float64Array, decay: Decay, seconds: number, pace: number, stray: number, error: number): void {
  if (seconds !== decay.seconds) {
    decay.seconds = seconds;
    decay.speed = Math.exp(-seconds / PACE_TIME);
    decay.error = Math.exp(-seconds / CORRELATION);
  }
  const keep = decay.speed;
  const forget = decay.error;
  const reach = PACE_TIME * (1 - keep);
  const p01 = state[4];
  const p02 = state[5];
  const p11 = state[6];
  const p12 = state[7];
  state[0] += reach * state[1] + pace * seconds;
  state[1] *= keep;
  state[2] *= forget;
  state[3] += 2 * reach * p01 + reach * reach * p11 + stray * (2 * PACE_TIME * (seconds - reach) - reach * reach);
  state[4] = keep * (p01 + reach * p11) + stray * PACE_TIME * (1 - keep) ** 2;
  state[5] = forget * (p02 + reach * p12);
  state[6] = keep * keep * p11 + stray * (1 - keep * keep);
  state[7] = keep * forget * p12;
  state[8] = forget * forget * state[8] + error * (1 - forget * forget);
}

/** The fix lies at place plus error. */
function update(state: Float64Array, along: number): void {
  const g0 = state[3] + state[5];
  const g1 = state[4] + state[7];
  const g2 = state[5] + state[8];
  const variance = g0 + g2 + ROUGH * ROUGH;
  const surprise = (along - state[0] - state[2]) / variance;
  state[0] += g0 * surprise;
  state[1] += g1 * surprise;
  state[2] += g2 * surprise;
  state[3] -= (g0 * g0) / variance;
  state[4] -= (g0 * g1) / variance;
  state[5] -= (g0 * g2) / variance;
  state[6] -= (g1 * g1) / variance;
  state[7] -= (g1 * g2) / variance;
  state[8] -= (g2 * g2) / variance;
}
