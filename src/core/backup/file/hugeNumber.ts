/** JSON text can say `1e999`, which is read as infinite, and which nothing can store or write again. */

/** The place of the first number that is not finite, as a path; null when there is none. */
export function hugeNumberIn(value: unknown, path = ''): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : path;
  if (typeof value !== 'object' || value === null) return null;
  const isList = Array.isArray(value);
  for (const [key, inner] of Object.entries(value)) {
    const place = isList ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
    const found = hugeNumberIn(inner, place);
    if (found !== null) return found;
  }
  return null;
}
