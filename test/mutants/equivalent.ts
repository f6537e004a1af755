/** A mutant that no test can notice, and why. */
interface Equivalent {
  readonly line: string;
  readonly becomes: string;
  readonly why: string;
}

const LAST_BIT =
  'differs only where two computed numbers are the same to the last bit, which no input was found to make';
const UNREAD = 'corner and origin of a piece are for those who lay routes: nothing here reads them';
const ANY_SEAM = 'any edge with room beside its middle serves; the longest has most';
const ONE_PAST = 'one past what is there: nobody reads it before it is written again';
const LATER_PAIR =
  'a sweep begun from a later pair of the same path is as sound; what it misses, the sweep of the whole diagram finds';

const SAME_VALUE = 'differs only where both are the same number, which is then put in its own place';

const ALL_BEHIND =
  'past the last state only where all are too far behind, as they are from every later bin: none is looked at';

const ONE_COLUMN =
  'at the very cell where its share of the work is done a sweep goes on by one column: the answer is the same, the share is rough';

const NO_FIX = 'there is no knot, so that nothing is read of the recording';

const NO_SPEED = 'past the last knot nothing was measured: what is read there is no speed above that of standing';

const SCRATCH = 'what stands in it at first is written over before it is read';

/** The files whose mutants are counted, each with those that change nothing that it promises. */
export const equivalent: Record<string, readonly Equivalent[]> = {
  'src/metrics/FreeSpace.ts': [
    { line: 'if (ends > limit2) {', becomes: 'if (ends >= limit2) {', why: LAST_BIT },
    { line: 'if (least <= limit2) {', becomes: 'if (least < limit2) {', why: LAST_BIT },
    {
      line: 'if (least === both || least !== first) j++;',
      becomes: 'if (false || least !== first) j++;',
      why: 'differs only where both walkers and the first alone come equally near: then the first goes alone, as sound a hop',
    },
    { line: 'if (path[i] < 0) path[i] = j;', becomes: 'if (true) path[i] = j;', why: LATER_PAIR },
    { line: 'if (path[i] < 0) path[i] = j;', becomes: 'if (path[i] <= 0) path[i] = j;', why: LATER_PAIR },
    {
      line: 'while (path[from] < 0) from--;',
      becomes: 'while (path[from] <= 0) from--;',
      why: 'differs at vertex 0 of b alone, where it goes back to the start of both: as sound a place to sweep from',
    },
    {
      line: 'while (front.vertex <= i || front.firstVertex() < 0) {',
      becomes: 'while (front.vertex <= i || front.firstVertex() <= 0) {',
      why: 'differs where the start of b is still in reach: the sweep goes on by a vertex, what it reaches is as true',
    },
    {
      line: 'if (front.vertex === this.#a.edges || !front.advance(free)) return false;',
      becomes: 'if (false || !front.advance(free)) return false;',
      why: 'past the last vertex there is nothing to measure, so nothing is reached and the answer is the same',
    },
    {
      line: 'while (forth.vertex < edges && forth.work - begun < SWEPT * vertices) {',
      becomes: 'while (forth.vertex < edges && forth.work - begun <= SWEPT * vertices) {',
      why: ONE_COLUMN,
    },
    {
      line: 'while (forth.vertex + back.vertex < edges && forth.work + back.work - done < SWEPT * MORE * share * vertices) {',
      becomes:
        'while (forth.vertex + back.vertex < edges && forth.work + back.work - done <= SWEPT * MORE * share * vertices) {',
      why: ONE_COLUMN,
    },
    {
      line: 'const next = forth.work - back.work <= ahead ? forth : back;',
      becomes: 'const next = forth.work - back.work < ahead ? forth : back;',
      why: 'where both did the same work either may go on: the answer and the bound on the work are the same',
    },
  ],
  'src/route/offsetLine.ts': [
    {
      line: 'for (let distance = metres; distance > SAME_POINT; distance /= 2) {',
      becomes: 'for (let distance = metres; distance >= SAME_POINT; distance /= 2) {',
      why: LAST_BIT,
    },
    {
      line: 'if (!edges.some(({ to }) => apart(to, first.from) > CLOSED)) return false;',
      becomes: 'if (!edges.some(({ to }) => apart(to, first.from) >= CLOSED)) return false;',
      why: LAST_BIT,
    },
    {
      line: 'const piece = linePiece(line[from], line[i], true, -1);',
      becomes: 'const piece = linePiece(line[from], line[i], false, -1);',
      why: UNREAD,
    },
    {
      line: 'const piece = linePiece(line[from], line[i], true, -1);',
      becomes: 'const piece = linePiece(line[from], line[i], true, +1);',
      why: UNREAD,
    },
    {
      line: 'if (piece.length <= SAME_POINT) continue;',
      becomes: 'if (piece.length < SAME_POINT) continue;',
      why: LAST_BIT,
    },
    {
      line: 'if (apart(last.to, first.from) > CLOSED) return false;',
      becomes: 'if (apart(last.to, first.from) >= CLOSED) return false;',
      why: LAST_BIT,
    },
    {
      line: 'return Math.abs(turnBetween(last.endAzimuth, first.startAzimuth)) < U_TURN_AT_START;',
      becomes: 'return Math.abs(turnBetween(last.endAzimuth, first.startAzimuth)) <= U_TURN_AT_START;',
      why: LAST_BIT,
    },
    {
      line: 'const seam = apart(open.vertices[end], open.vertices[0]) > SAME_POINT ? 0 : 1;',
      becomes: 'const seam = apart(open.vertices[end], open.vertices[0]) >= SAME_POINT ? 0 : 1;',
      why: LAST_BIT,
    },
    {
      line: 'if (at > corner) return at - corner > longest ? longest + (at - edges.length) / 2 : at - corner;',
      becomes: 'if (at > corner) return at - corner >= longest ? longest + (at - edges.length) / 2 : at - corner;',
      why: 'at the start of the longest edge both are its index',
    },
    {
      line: 'return at < 1 ? longest + (1 + at) / 2 : longest + at;',
      becomes: 'return at <= 1 ? longest + (1 + at) / 2 : longest + at;',
      why: 'at the end of the longest edge both are the next index',
    },
    {
      line: 'return at < 1 ? longest + (1 + at) / 2 : longest + at;',
      becomes: 'return at < 1 ? longest + (1 - at) / 2 : longest + at;',
      why: 'what is cut beside the second half of the longest edge is said to begin at its middle, where at is 0',
    },
    {
      line: 'if (from <= to) return [[from, to]];',
      becomes: 'if (from < to) return [[from, to]];',
      why: 'a stretch of no length: a cut has a vertex kept on either side, and they differ',
    },
    {
      line: 'const byLength = [...edges.keys()].sort((a, b) => edges[b].length - edges[a].length);',
      becomes: 'const byLength = [...edges.keys()];',
      why: ANY_SEAM,
    },
    {
      line: 'const byLength = [...edges.keys()].sort((a, b) => edges[b].length - edges[a].length);',
      becomes: 'const byLength = [...edges.keys()].sort(() => undefined);',
      why: ANY_SEAM,
    },
    {
      line: 'const byLength = [...edges.keys()].sort((a, b) => edges[b].length - edges[a].length);',
      becomes: 'const byLength = [...edges.keys()].sort((a, b) => edges[b].length + edges[a].length);',
      why: ANY_SEAM,
    },
    {
      line: 'return !isTooNear(step(middle.to, middle.endAzimuth + 90 * right, metres).to, i + 0.5);',
      becomes: 'return !isTooNear(step(middle.to, middle.endAzimuth + 90 / right, metres).to, i + 0.5);',
      why: 'right is 1 or -1',
    },
    {
      line: 'return !isTooNear(step(middle.to, middle.endAzimuth + 90 * right, metres).to, i + 0.5);',
      becomes: 'return !isTooNear(step(middle.to, middle.endAzimuth + 90 * right, metres).to, i - 0.5);',
      why: 'looked at from an edge before: what is near is in reach from there too, unless that edge is longer than half a circle',
    },
    {
      line: 'return vertices.some((vertex) => apart(vertices[0], vertex) > SAME_POINT);',
      becomes: 'return vertices.some((vertex) => apart(vertices[0], vertex) >= SAME_POINT);',
      why: LAST_BIT,
    },
    {
      line: 'return linePiece(from, to, false, -1).length;',
      becomes: 'return linePiece(from, to, true, -1).length;',
      why: UNREAD,
    },
    {
      line: 'return linePiece(from, to, false, -1).length;',
      becomes: 'return linePiece(from, to, false, +1).length;',
      why: UNREAD,
    },
  ],
  'src/statistics/JointScatter.ts': [],
  'src/statistics/CosineWaves.ts': [
    {
      line: 'weight += weights[i];',
      becomes: 'weight -= weights[i];',
      why: 'places are then as far before the start as they were behind it, and a cosine is even',
    },
    {
      line: 'for (let j = 0; j < waves.length; j++) {',
      becomes: 'for (let j = 0; j <= waves.length; j++) {',
      why: 'what is written past the end of a typed array is dropped',
    },
  ],
  'src/statistics/memoryOf.ts': [
    {
      line: 'while (slow < SLOW_SHARE * all) slow += power[slowest++];',
      becomes: 'while (slow <= SLOW_SHARE * all) slow += power[slowest++];',
      why: LAST_BIT,
    },
    {
      line: 'for (let i = 0; i < 40; i++) {',
      becomes: 'for (let i = 0; i <= 40; i++) {',
      why: 'one halving more of what is 1e-11 wide',
    },
    {
      line: 'if (shareOf(Math.exp(middle)) < share) low = middle;',
      becomes: 'if (shareOf(Math.exp(middle)) <= share) low = middle;',
      why: LAST_BIT,
    },
  ],
  'src/statistics/correctedPairs.ts': [
    {
      line: 'if (joined.length * others > LIMIT) one.level = Math.min(one.level, LIMIT / joined.length);',
      becomes: 'if (joined.length * others >= LIMIT) one.level = Math.min(one.level, LIMIT / joined.length);',
      why: LAST_BIT,
    },
    {
      line: 'corrected[i].level = LIMIT / factors[first >= 0 && first < step ? first : passed[step]];',
      becomes: 'corrected[i].level = LIMIT / factors[first >= 0 && first <= step ? first : passed[step]];',
      why: 'where the pair itself is the first over the limit, the next one, no smaller, is over it at the same rank',
    },
  ],
  'src/statistics/autocorrelation.ts': [
    {
      line: 'if (!(variance > 1e-18 * n)) return undefined;',
      becomes: 'if (!(variance >= 1e-18 * n)) return undefined;',
      why: LAST_BIT,
    },
  ],
  'src/statistics/correlationLag.ts': [
    {
      line: 'for (let lag = 1; lag <= column.furthest; lag++) if (column.at(lag) < 1 / Math.E) return lag * column.pool;',
      becomes:
        'for (let lag = 1; lag <= column.furthest; lag++) if (column.at(lag) <= 1 / Math.E) return lag * column.pool;',
      why: LAST_BIT,
    },
  ],
  'src/geodesy/interception.ts': [
    {
      line: 'for (let i = 0; i < STEPS; i++) {',
      becomes: 'for (let i = 0; i < STEPS; i--) {',
      why: 'a fence against a search without end: none of 150 000 points drawn where Newton is slowest, near a pole of the line, used up its steps',
    },
    {
      line: 'for (let i = 0; i < STEPS; i++) {',
      becomes: 'for (let i = 0; i <= STEPS; i++) {',
      why: 'one step more before the search gives way: what converges has converged by then',
    },
    {
      line: 'if (!(Math.abs(crossTrack) < NEAR_POLAR)) return undefined;',
      becomes: 'if (!(Math.abs(crossTrack) <= NEAR_POLAR)) return undefined;',
      why: LAST_BIT,
    },
    { line: 'if (Math.abs(foot - place) > SAME) {', becomes: 'if (Math.abs(foot - place) >= SAME) {', why: LAST_BIT },
    {
      line: 'if (Math.abs(foot - place) + view.line.s13 > HALF_TURN - STRIDE) return undefined;',
      becomes: 'if (Math.abs(foot - place) + view.line.s13 >= HALF_TURN - STRIDE) return undefined;',
      why: LAST_BIT,
    },
    {
      line: '2 * FLATTENING * (step * Math.max(Math.abs(distance), Math.abs(step))) ** 2 < CONVERGED * SEMI_MAJOR ** 3',
      becomes:
        '2 * FLATTENING * (step * Math.max(Math.abs(distance), Math.abs(step))) ** 2 <= CONVERGED * SEMI_MAJOR ** 3',
      why: LAST_BIT,
    },
    {
      line: 'const feet: Interception[] = [];',
      becomes: 'const feet: Interception[] = ["Stryker was here"];',
      why: 'no foot: its distance is undefined, and never the least',
    },
    {
      line: 'const isAhead = (alongTrack: number) => look(view, alongTrack).ahead > 0;',
      becomes: 'const isAhead = (alongTrack: number) => look(view, alongTrack).ahead >= 0;',
      why: LAST_BIT,
    },
    {
      line: 'for (let place = from; place < to + stride / 2; place += stride) {',
      becomes: 'for (let place = from; place <= to + stride / 2; place += stride) {',
      why: LAST_BIT,
    },
    {
      line: 'for (let half = stride / 2; half > CONVERGED / 2; half /= 2) if (isAhead(near + half)) near += half;',
      becomes: 'for (let half = stride * 2; half > CONVERGED / 2; half /= 2) if (isAhead(near + half)) near += half;',
      why: 'steps past the bracket, behind the foot, are not taken',
    },
    {
      line: 'for (let half = stride / 2; half > CONVERGED / 2; half /= 2) if (isAhead(near + half)) near += half;',
      becomes: 'for (let half = stride / 2; half >= CONVERGED / 2; half /= 2) if (isAhead(near + half)) near += half;',
      why: LAST_BIT,
    },
    {
      line: 'for (let half = stride / 2; half > CONVERGED / 2; half /= 2) if (isAhead(near + half)) near += half;',
      becomes: 'for (let half = stride / 2; half > CONVERGED * 2; half /= 2) if (isAhead(near + half)) near += half;',
      why: 'a nanometre of the place is what is promised, and more than a distance can show',
    },
    {
      line: 'return feet.reduce((best, foot) => (Math.abs(foot.crossTrack) < Math.abs(best.crossTrack) - SAME ? foot : best));',
      becomes:
        'return feet.reduce((best, foot) => (Math.abs(foot.crossTrack) <= Math.abs(best.crossTrack) - SAME ? foot : best));',
      why: LAST_BIT,
    },
    {
      line: 'if (!(view.line.s13 > POINTLIKE)) return pointFoot(view);',
      becomes: 'if (!(view.line.s13 >= POINTLIKE)) return pointFoot(view);',
      why: LAST_BIT,
    },
    {
      line: 'if (foot && Math.abs(foot.alongTrack - middle) < HALF_TURN - STRIDE) return foot;',
      becomes: 'if (foot && Math.abs(foot.alongTrack - middle) <= HALF_TURN - STRIDE) return foot;',
      why: LAST_BIT,
    },
    {
      line: 'if (!(length > POINTLIKE)) return pointFoot(view);',
      becomes: 'if (!(length >= POINTLIKE)) return pointFoot(view);',
      why: LAST_BIT,
    },
  ],
  'src/snap/LatticeStates.ts': [
    {
      line: 'const none = { lon: [], lat: [], clock: new Float64Array(), gapBefore: [] };',
      becomes: 'const none = {};',
      why: NO_FIX,
    },
    {
      line: 'const none = { lon: [], lat: [], clock: new Float64Array(), gapBefore: [] };',
      becomes: 'const none = { lon: ["Stryker was here"], lat: [], clock: new Float64Array(), gapBefore: [] };',
      why: NO_FIX,
    },
    {
      line: 'const none = { lon: [], lat: [], clock: new Float64Array(), gapBefore: [] };',
      becomes: 'const none = { lon: [], lat: ["Stryker was here"], clock: new Float64Array(), gapBefore: [] };',
      why: NO_FIX,
    },
    {
      line: 'const none = { lon: [], lat: [], clock: new Float64Array(), gapBefore: [] };',
      becomes: 'const none = { lon: [], lat: [], clock: new Float64Array(), gapBefore: ["Stryker was here"] };',
      why: NO_FIX,
    },
    {
      line: 'if (before.size > 0 && !before.lost) {',
      becomes: 'if (true && !before.lost) {',
      why: 'without states before there is no last bin to compare with, and the first is the room’s 0',
    },
    {
      line: 'for (let k = 0; k < size; k++) {',
      becomes: 'for (let k = 0; k <= size; k++) {',
      why: ONE_PAST,
    },
    {
      line: 'const before = knot > 0 ? kept[knot - 1] : fix;',
      becomes: 'const before = true ? kept[knot - 1] : fix;',
      why: 'before the first knot there is none: the loop from undefined does not run, as from the fix itself',
    },
    {
      line: 'const before = knot > 0 ? kept[knot - 1] : fix;',
      becomes: 'const before = knot >= 0 ? kept[knot - 1] : fix;',
      why: 'before the first knot there is none: the loop from undefined does not run, as from the fix itself',
    },
    {
      line: 'readonly #near: number[] = [];',
      becomes: 'readonly #near: number[] = ["Stryker was here"];',
      why: SCRATCH,
    },
    {
      line: 'readonly #squares: number[] = [];',
      becomes: 'readonly #squares: number[] = ["Stryker was here"];',
      why: SCRATCH,
    },
    {
      line: 'readonly #feet: number[] = [];',
      becomes: 'readonly #feet: number[] = ["Stryker was here"];',
      why: SCRATCH,
    },
    {
      line: 'readonly #ends: number[] = [];',
      becomes: 'readonly #ends: number[] = ["Stryker was here"];',
      why: SCRATCH,
    },
    {
      line: 'readonly #kept: number[] = [];',
      becomes: 'readonly #kept: number[] = ["Stryker was here"];',
      why: SCRATCH,
    },
    {
      line: 'const origin = before.size > 0 && !before.lost ? before.heaviest : -1;',
      becomes: 'const origin = true && !before.lost ? before.heaviest : -1;',
      why: 'a room without states has no heaviest either: -1',
    },
    {
      line: 'const origin = before.size > 0 && !before.lost ? before.heaviest : -1;',
      becomes: 'const origin = before.size >= 0 && !before.lost ? before.heaviest : -1;',
      why: 'a room without states has no heaviest either: -1',
    },
    {
      line: 'for (let k = 0; k < size; k++) if (emission[k] > top) top = emission[k];',
      becomes: 'for (let k = 0; k <= size; k++) if (emission[k] > top) top = emission[k];',
      why: ONE_PAST,
    },
    {
      line: 'for (let k = 0; k < size; k++) if (emission[k] > top) top = emission[k];',
      becomes: 'for (let k = 0; k < size; k++) if (emission[k] >= top) top = emission[k];',
      why: 'the greatest of equal numbers is the same number',
    },
    {
      line: 'let last = count - 1;',
      becomes: 'let last = count + 1;',
      why: 'past the last bin there is none to be near',
    },
    {
      line: 'near = this.#landings(x, y, z, this.#far, 0, count - 1, true);',
      becomes: 'near = this.#landings(x, y, z, this.#far, 0, count + 1, true);',
      why: 'past the last bin there is none to be near',
    },
    {
      line: 'const to = Math.min(before.bin[i] + highest, count - 1);',
      becomes: 'const to = Math.min(before.bin[i] + highest, count + 1);',
      why: 'past the last bin the distance is not a number, which is not within reach',
    },
    {
      line: 'if (dx * dx + dy * dy + dz * dz <= far) into.add(from);',
      becomes: 'if (dx * dx + dy * dy + dz * dz < far) into.add(from);',
      why: LAST_BIT,
    },
    ...[
      'if (false) return true;',
      'if (true && bins.square(this.#held, x, y, z) <= this.#far ** 2) return true;',
      'if (this.#held > 0 && bins.square(this.#held, x, y, z) <= this.#far ** 2) return true;',
      'if (this.#held >= 0 && bins.square(this.#held, x, y, z) < this.#far ** 2) return true;',
    ].map((becomes) => ({
      line: 'if (this.#held >= 0 && bins.square(this.#held, x, y, z) <= this.#far ** 2) return true;',
      becomes,
      why: 'where no bin is held, or it is not asked, all are searched: slower, with the same answer',
    })),
    {
      line: 'if (share !== this.#shareBefore) {',
      becomes: 'if (true) {',
      why: 'worked out again, to the same number',
    },
    {
      line: 'while (k < near && this.#kept[k] < from) k++;',
      becomes: 'while (true && this.#kept[k] < from) k++;',
      why: 'behind the last landing stand those of an earlier knot, or none: neither is looked at, as k only has to reach the end',
    },
    {
      line: 'while (k < near && this.#kept[k] < from) k++;',
      becomes: 'while (k <= near && this.#kept[k] < from) k++;',
      why: 'one past the last landing ends the loops below as well',
    },
    {
      line: 'if (Number.isInteger(roots)) {',
      becomes: 'if (false) {',
      why: 'by logarithms: slower, to the same number',
    },
    {
      line: 'for (let k = 0; k < size; k++) emission[k] = Math.exp(-3 * share * Math.log(emission[k]));',
      becomes: 'for (let k = 0; k <= size; k++) emission[k] = Math.exp(-3 * share * Math.log(emission[k]));',
      why: ONE_PAST,
    },
    {
      line: 'for (; k < found && near[k] === near[k - 1] + 1; k++) if (squares[k] < squares[foot]) foot = k;',
      becomes: 'for (; k < found && near[k] === near[k - 1] + 1; k++) if (squares[k] <= squares[foot]) foot = k;',
      why: LAST_BIT,
    },
    {
      line: 'for (; k < ends[pass]; k++) if (near[k] % every === 0 && squares[k] <= most) this.#kept[kept++] = near[k];',
      becomes:
        'for (; k < ends[pass]; k++) if (near[k] % every === 0 && squares[k] < most) this.#kept[kept++] = near[k];',
      why: LAST_BIT,
    },
    {
      line: 'return this.bins.square(foot, x[bin], y[bin], z[bin]) <= spacing * spacing;',
      becomes: 'return this.bins.square(foot, x[bin], y[bin], z[bin]) < spacing * spacing;',
      why: LAST_BIT,
    },
    {
      line: 'for (let other = pass + back; other >= 0 && other < passes && copies < COPIES; other += back) {',
      becomes: 'for (let other = pass + back; true && other < passes && copies < COPIES; other += back) {',
      why: 'back from a pass ahead the origin comes before the first pass: the break below ends the loop, or there is no bin to compare, which breaks too',
    },
    {
      line: 'for (let other = pass + back; other >= 0 && other < passes && copies < COPIES; other += back) {',
      becomes: 'for (let other = pass + back; other >= 0 && other < passes && true; other += back) {',
      why: 'counts on, to three or more all the same',
    },
    {
      line: 'for (let other = pass + back; other >= 0 && other < passes && copies < COPIES; other += back) {',
      becomes: 'for (let other = pass + back; other >= 0 && other < passes && copies <= COPIES; other += back) {',
      why: 'counts on, to three or more all the same',
    },
    {
      line: 'const back = bin > origin ? -1 : 1;',
      becomes: 'const back = bin >= origin ? -1 : 1;',
      why: 'a pass whose foot is the origin has none between it and the origin, whichever way',
    },
    {
      line: 'if (this.#near[this.#feet[other]] > origin !== bin > origin) break;',
      becomes: 'if (this.#near[this.#feet[other]] > origin !== bin >= origin) break;',
      why: 'differs for a pass whose foot is the origin alone, which has no copies between',
    },
  ],
  'src/snap/StepWeights.ts': [
    {
      line: 'for (let knot = 1; knot < knots; knot++) {',
      becomes: 'for (let knot = 1; knot <= knots; knot++) {',
      why: ONE_PAST,
    },
    {
      line: 'for (let k = Math.max(knot - NEIGHBOURS, 1); k <= Math.min(knot + NEIGHBOURS, knots - 1); k++) {',
      becomes: 'for (let k = Math.max(knot - NEIGHBOURS, 1); k <= Math.min(knot + NEIGHBOURS, knots + 1); k++) {',
      why: NO_SPEED,
    },
    {
      line: 'if (size > this.weights.length) this.weights = new Float64Array(2 * size);',
      becomes: 'if (true) this.weights = new Float64Array(2 * size);',
      why: 'room made anew where there was enough: every weight is written again',
    },
    {
      line: 'if (size > this.weights.length) this.weights = new Float64Array(2 * size);',
      becomes: 'if (size >= this.weights.length) this.weights = new Float64Array(2 * size);',
      why: 'room made anew where there was enough: every weight is written again',
    },
    {
      line: 'for (let k = 0; k < middle; k++) {',
      becomes: 'for (let k = 0; k <= middle; k++) {',
      why: 'the one at the middle is written again',
    },
    {
      line: 'for (let k = middle; k < size; k++) {',
      becomes: 'for (let k = middle; k <= size; k++) {',
      why: ONE_PAST,
    },
    ...['true', '5 * sizeBefore >= this.#packed.length'].map((holds) => ({
      line: 'if (5 * sizeBefore > this.#packed.length) this.#packed = new Float64Array(10 * sizeBefore);',
      becomes: `if (${holds}) this.#packed = new Float64Array(10 * sizeBefore);`,
      why: 'room made anew where there was enough: all that is read is written again',
    })),
    {
      line: 'for (let i = 0, p = 0; i < sizeBefore; i++, p += 5) {',
      becomes: 'for (let i = 0, p = 0; i <= sizeBefore; i++, p += 5) {',
      why: ONE_PAST,
    },
    { line: 'for (let j = 0; j < size; j++) {', becomes: 'for (let j = 0; j <= size; j++) {', why: ONE_PAST },
    { line: 'for (let i = 0; i < size; i++) {', becomes: 'for (let i = 0; i <= size; i++) {', why: ONE_PAST },
    {
      line: 'while (low < sizeBefore && binBefore[low] < bin - highest) low++;',
      becomes: 'while (true && binBefore[low] < bin - highest) low++;',
      why: ALL_BEHIND,
    },
    {
      line: 'while (low < sizeBefore && binBefore[low] < bin - highest) low++;',
      becomes: 'while (low <= sizeBefore && binBefore[low] < bin - highest) low++;',
      why: ALL_BEHIND,
    },
    {
      line: 'while (low < sizeNext && binNext[low] < bin + lowest) low++;',
      becomes: 'while (true && binNext[low] < bin + lowest) low++;',
      why: ALL_BEHIND,
    },
    {
      line: 'while (low < sizeNext && binNext[low] < bin + lowest) low++;',
      becomes: 'while (low <= sizeNext && binNext[low] < bin + lowest) low++;',
      why: ALL_BEHIND,
    },
  ],
  'src/snap/pruneStates.ts': [
    {
      line: 'for (let j = 0; j < size; j++) worth[j] = Math.max(best[j] / top, sum[j]);',
      becomes: 'for (let j = 0; j <= size; j++) worth[j] = Math.max(best[j] / top, sum[j]);',
      why: ONE_PAST,
    },
    { line: 'for (let j = 0; j < size; j++) {', becomes: 'for (let j = 0; j <= size; j++) {', why: ONE_PAST },
    {
      line: 'while (tail > head && worth[queue[tail - 1]] <= worth[next]) tail--;',
      becomes: 'while (tail > head && worth[queue[tail - 1]] < worth[next]) tail--;',
      why: 'of two worth the same the one behind takes the place of the other once that has left the window',
    },
    {
      line: 'if (states.size > MOST_KEPT) states.size = MOST_KEPT;',
      becomes: 'if (states.size >= MOST_KEPT) states.size = MOST_KEPT;',
      why: SAME_VALUE,
    },
  ],
  'src/snap/ForwardSweep.ts': [
    {
      line: 'for (let j = 0; j < here.size; j++) if (here.best[j] >= HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;',
      becomes:
        'for (let j = 0; j <= here.size; j++) if (here.best[j] >= HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;',
      why: ONE_PAST,
    },
    {
      line: 'for (let j = 0; j < here.size; j++) if (here.best[j] >= HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;',
      becomes:
        'for (let j = 0; j < here.size; j++) if (here.best[j] > HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;',
      why: LAST_BIT,
    },
    {
      line: 'for (let j = 0; j < here.size; j++) if (here.best[j] >= HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;',
      becomes:
        'for (let j = 0; j < here.size; j++) if (here.best[j] >= HOPELESS || here.sum[j] > HOPELESS) here.marked[j] = 0;',
      why: LAST_BIT,
    },
    {
      line: 'for (let j = 0; j < here.size; j++) {',
      becomes: 'for (let j = 0; j <= here.size; j++) {',
      why: ONE_PAST,
    },
    {
      line: 'for (let j = 0; j < size; j++) if (marked[j] === 1) return false;',
      becomes: 'for (let j = 0; j <= size; j++) if (marked[j] === 1) return false;',
      why: 'a mark left one past the last has skips counted where they add nothing: slower, with the same answer',
    },
    {
      line: 'if (joined * this.#outside > best[j]) {',
      becomes: 'if (joined * this.#outside >= best[j]) {',
      why: LAST_BIT,
    },
    { line: 'if (best[j] > top) top = best[j];', becomes: 'if (best[j] >= top) top = best[j];', why: SAME_VALUE },
    { line: 'if (sum[j] > most) most = sum[j];', becomes: 'if (sum[j] >= most) most = sum[j];', why: SAME_VALUE },
    { line: 'for (let j = 0; j < size; j++) {', becomes: 'for (let j = 0; j <= size; j++) {', why: ONE_PAST },
  ],
  'src/snap/likeliestPath.ts': [],
  'src/snap/dropHopeless.ts': [
    {
      line: 'if (best[j] > topBest) topBest = best[j];',
      becomes: 'if (best[j] >= topBest) topBest = best[j];',
      why: SAME_VALUE,
    },
    {
      line: 'if (sum[j] > topSum) topSum = sum[j];',
      becomes: 'if (sum[j] >= topSum) topSum = sum[j];',
      why: SAME_VALUE,
    },
    { line: 'if (worth[j] > top) top = worth[j];', becomes: 'if (worth[j] >= top) top = worth[j];', why: SAME_VALUE },
    {
      line: 'for (let j = 0; j < size; j++) marked[j] = worth[j] < least ? 1 : 0;',
      becomes: 'for (let j = 0; j <= size; j++) marked[j] = worth[j] < least ? 1 : 0;',
      why: ONE_PAST,
    },
  ],
};
