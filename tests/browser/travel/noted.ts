// Plans whose links are as long as a test wants them.
import { createHash } from 'node:crypto';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { planLink } from '../../../src/ui/travelling.ts';

/** Letters that hardly compress, the same at every run. */
export function hardLetters(count: number): string {
  const letter = (i: number) => createHash('sha256').update(String(i)).digest('base64url')[0];
  return Array.from({ length: count }, (_, i) => letter(i)).join('');
}

export async function linkOf(plan: Plan, address: string): Promise<string> {
  const made = await planLink(plan, address);
  if (!made.ok) throw new Error(`got no link: ${JSON.stringify(made.problem)}`);
  return made.value;
}

/** The plan with just so many notes that its link is within 20 signs below `length`. */
export async function withLinkOf(length: number, plan: Plan, address: string): Promise<Plan> {
  for (let letters = 0; letters < 3000; letters += 10) {
    const noted = { ...plan, notes: hardLetters(letters) };
    if ((await linkOf(noted, address)).length > length - 20) return noted;
  }
  throw new Error(`got no plan with a link of ${length}`);
}
