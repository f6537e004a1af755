/** Makes the largest of the first `size` values 1, so that nothing underflows along a long recording. */
export function rescale(values: Float64Array, size: number): void {
  let top = 0;
  for (let i = 0; i < size; i++) if (values[i] > top) top = values[i];
  for (let i = 0; i < size; i++) values[i] /= top;
}
