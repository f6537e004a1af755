/**
 * The document with what stands between `<!-- NAME:begin -->` and `<!-- NAME:end -->` replaced.
 *
 * @throws {Error} either marker missing, or not exactly once
 */
export function writeBetween(document: string, name: string, text: string): string {
  const [begin, end] = [`<!-- ${name}:begin -->`, `<!-- ${name}:end -->`];
  const parts = document.split(begin);
  const rest = parts[1]?.split(end) ?? [];
  if (parts.length !== 2 || rest.length !== 2) throw new Error(`the document must have "${begin}" … "${end}" once`);
  return `${parts[0]}${begin}\n${text}\n${end}${rest[1]}`;
}
