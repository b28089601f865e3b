/** Everything that is wrong with a file: each place, what is wrong and what would be right. */
import type { ProblemWords } from '../problemWords.ts';

interface Told {
  readonly path: string;
  readonly code: string;
}

export interface ProblemListProps<P extends Told> {
  readonly problems: readonly P[];
  readonly words: (problem: P) => ProblemWords;
}

export function ProblemList<P extends Told>({ problems, words }: ProblemListProps<P>) {
  return (
    <ul class="problems">
      {problems.map((problem) => {
        const { wrong, right } = words(problem);
        return (
          <li key={`${problem.path} ${problem.code}`}>
            {problem.path === '' ? null : <code>{problem.path}</code>}
            <p>{wrong}</p>
            <p class="hint">{right}</p>
          </li>
        );
      })}
    </ul>
  );
}
