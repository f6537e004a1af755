/** Without the zeros that a file system puts in place of what a receiver that lost its power had yet to write. */
export function withoutPadding<Document extends string | Uint8Array>(document: Document): Document {
  let end = document.length;
  while (end > 0 && (typeof document === 'string' ? document.charCodeAt(end - 1) : document[end - 1]) === 0) end--;
  return (typeof document === 'string' ? document.slice(0, end) : document.subarray(0, end)) as Document;
}
