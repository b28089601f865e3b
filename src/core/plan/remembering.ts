/**
 * The one cache of the core. A plan is readonly: an edit makes the part it changes anew and keeps all
 * others as the very objects they were. What followed from a part therefore holds as long as the part,
 * and everything else it followed from, are the same objects, and need not be worked out again.
 *
 * A remembering function is as pure as the one it remembers. It gets every part it follows from as an
 * argument of its own, never a whole plan: what it is not given it cannot follow from, so that no key can
 * be forgotten. Only the last answer is kept for each object, and no longer than that object is.
 */
export function remembering<Of extends object, Given extends readonly unknown[], Answer>(
  work: (of: Of, ...given: Given) => Answer,
): (of: Of, ...given: Given) => Answer {
  const last = new WeakMap<Of, { readonly given: Given; readonly answer: Answer }>();
  return (of, ...given) => {
    const known = last.get(of);
    if (known?.given.every((it, i) => it === given[i])) return known.answer;
    const answer = work(of, ...given);
    last.set(of, { given, answer });
    return answer;
  };
}
