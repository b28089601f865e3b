/** The problems of the plan being edited, shown at the field that causes them. */
import { draftProblems } from '../draft.ts';
import { wordsFor } from '../problemWords.ts';

export interface ProblemsAtProps {
  readonly path: string;
  /** Also those of everything inside, for a part that is folded away. */
  readonly inside?: true;
}

export function ProblemsAt({ path, inside }: ProblemsAtProps) {
  const here = draftProblems.value.filter(
    (problem) => problem.path === path || (inside === true && isInside(problem.path, path)),
  );
  return (
    <>
      {here.map((problem) => {
        const words = wordsFor(problem);
        return (
          <p class="problem" role="alert" key={`${problem.path} ${problem.code}`}>
            {words.wrong} {words.right}
          </p>
        );
      })}
    </>
  );
}

function isInside(path: string, outer: string): boolean {
  return path.startsWith(`${outer}.`) || path.startsWith(`${outer}[`);
}
