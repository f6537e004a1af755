declare module 'd3-dsv' {
  export function csvParse(text: string): Record<string, string>[];
}
