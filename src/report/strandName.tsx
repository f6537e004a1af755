import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { ReportModel, Strand } from './reportModel';

/** A recording's receiver with the sample of its line, and its run where there are several. */
export function strandName({ runs }: ReportModel, { receiver, run }: Strand): Content {
  return (
    <>
      {receiverName(receiver)}
      {run !== null && runs.length > 1 && [' ', <bdi>{run}</bdi>]}
    </>
  );
}
