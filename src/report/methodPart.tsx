import { type Content, element, fragment } from './element';
import { listItem } from './listItem';
import type { ReportModel } from './reportModel';

/** How the figures came about: every choice, version and hash, so that another can do it again. */
export function methodPart({ assessments, summary }: ReportModel): Content {
  const sentences = [
    ...new Set([...assessments.flatMap(({ method }) => method.sentences), ...(summary?.method.sentences ?? [])]),
  ];
  const excluded = assessments[0].route.excluded;
  return (
    <>
      <ul>{sentences.map(listItem)}</ul>
      {excluded.length > 0 && (
        <p>
          Left out for all recordings alike:{' '}
          {excluded.map(({ from, to, reason }) => `${from.toFixed(0)}–${to.toFixed(0)} m (${reason})`).join('; ')}.
        </p>
      )}
      <details>
        <summary>Versions and hashes of what was judged</summary>
        {assessments.map(({ method }) => (
          <>
            <p>
              {method.library} {method.version}, <code>{method.hash}</code>
            </p>
            <ul class="hashes">
              {method.inputs.map(({ name, hash }) => (
                <li>
                  <bdi>{name}</bdi> <code>{hash}</code>
                </li>
              ))}
            </ul>
          </>
        ))}
      </details>
    </>
  );
}
