/** Everything that is wrong with a plan: each place, what is wrong and what would be right. */
import type { Problem } from '../../core/plan/problems.ts';
import { wordsFor } from '../problemWords.ts';

export function ProblemList({ problems }: { readonly problems: readonly Problem[] }) {
  return (
    <ul class="problems">
      {problems.map((problem) => {
        const words = wordsFor(problem);
        return (
          <li key={`${problem.path} ${problem.code}`}>
            {problem.path === '' ? null : <code>{problem.path}</code>}
            <p>{words.wrong}</p>
            <p class="hint">{words.right}</p>
          </li>
        );
      })}
    </ul>
  );
}
