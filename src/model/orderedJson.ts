/** JSON with the keys of every object in the order of the alphabet: one text for one document, however it was written down. */
export function orderedJson(document: unknown): string {
  return JSON.stringify(document, (_, value) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
}
