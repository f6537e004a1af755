/** Mean of the sections' means, each section counting the same; null unless there are sections and each has a figure. */
export function balancedMean(
  rows: readonly { readonly section: string | null; readonly meanAbsolute: number | null }[],
): number | null {
  const sections = rows.filter(({ section }) => section !== null);
  if (sections.length === 0 || sections.some(({ meanAbsolute }) => meanAbsolute === null)) return null;
  return sections.reduce((sum, { meanAbsolute }) => sum + meanAbsolute!, 0) / sections.length;
}
