import { Caution } from '../components/notice.js';

interface SelectedScoresProps {
  /** Traits whose intervals are shown; null where nobody had chosen the fish that were scored. */
  of: readonly { readonly name: string; readonly selectionCaution: string | null }[];
}

/** The caution beside every interval that rests on scores of fish that somebody had chosen: it holds less often than it says. */
export function SelectedScores({ of }: SelectedScoresProps) {
  const told = of.filter(({ selectionCaution }) => selectionCaution !== null);
  const [first] = told;
  if (first === undefined) return null;
  if (told.length === 1)
    return (
      <Caution>
        {of.length > 1 && `${first.name}: `}
        {first.selectionCaution}
      </Caution>
    );
  return (
    <>
      <Caution>
        What stands after “give or take” is too small for {told.map(({ name }) => name).join(', ')}:
        fish were scored there that somebody had chosen.
      </Caution>
      <details className="lw-folded">
        <summary>How much too small, trait by trait</summary>
        <ul>
          {told.map(({ name, selectionCaution }) => (
            <li key={name}>
              {name}: {selectionCaution}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
