/** Corners of the shapes with an area of one: cross, diamond, square, star, triangle and one of three arms. The circle has none. */
const corners = [
  '',
  '-.671,-.224 -.224,-.224 -.224,-.671 .224,-.671 .224,-.224 .671,-.224 .671,.224 .224,.224 .224,.671 -.224,.671 -.224,.224 -.671,.224',
  '0,-.931 .537,0 0,.931 -.537,0',
  '-.5,-.5 .5,-.5 .5,.5 -.5,.5',
  '0,-.944 .212,-.292 .898,-.292 .343,.111 .555,.764 0,.361 -.555,.764 -.343,.111 -.898,-.292 -.212,-.292',
  '0,-.877 .76,.439 -.76,.439',
  '.27,.156 .27,.696 -.27,.696 -.27,.156 -.737,-.114 -.467,-.581 0,-.312 .467,-.581 .737,-.114',
];

/** Path data of a marker about the origin, all of them of one area in square pixels: seven shapes, then the first again. */
export function markerPath(slot: number, area: number): string {
  const scaled = (value: number) => Math.round(10 * value * Math.sqrt(area)) / 10;
  const shape = corners[slot % corners.length];
  const radius = scaled(Math.sqrt(1 / Math.PI));
  const half = `A${radius},${radius},0,1,1,`;
  if (shape === '') return `M${radius},0${half}${-radius},0${half}${radius},0`;
  const drawn = shape.replace(/[-.\d]+/g, (value) => `${scaled(Number(value))}`.replace('0.', '.'));
  // a sign parts numbers by itself
  return `M${drawn.replace(/[ ,]-/g, '-')}Z`;
}
