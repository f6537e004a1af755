import type { BenchRow } from './Bench';

/** The rows as a Markdown table, one line a row; a bar inside a cell is escaped. */
export function speedTable(rows: readonly BenchRow[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [
    line(['what', 'ours', 'promised', 'held', 'error', 'peers in the same run']),
    '| --- | ---: | --- | --- | --- | --- |',
    ...rows.map(({ what, ours, promise = '', held, error = '', peers = [] }) => {
      const beside = peers.map((peer) => `${peer.name} ${peer.time}${peer.error ? ` (${peer.error})` : ''}`).join(', ');
      return line([what, ours, promise, held === undefined ? '' : held === true ? 'yes' : held || 'NO', error, beside]);
    }),
  ].join('\n');
}
