/** The places that path data goes through, line by line: as SVG 2 has `M`, `L` and `l`, with numbers run together where they may be. */
export function pathPoints(d: string): [x: number, y: number][][] {
  const lines: [number, number][][] = [];
  for (const [, command, rest] of d.matchAll(/([MLl])([^MLlZz]*)/g)) {
    const numbers = (rest.match(/-?(?:\d+\.?\d*|\.\d+)/g) ?? []).map(Number);
    for (let i = 0; i + 1 < numbers.length; i += 2) {
      const [x, y] = [numbers[i], numbers[i + 1]];
      const line = lines.at(-1)!;
      if (command === 'M' && i === 0) lines.push([[x, y]]);
      else if (command === 'l') line.push([line.at(-1)![0] + x, line.at(-1)![1] + y]);
      else line.push([x, y]);
    }
  }
  return lines;
}
