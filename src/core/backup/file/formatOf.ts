/** Characters within which a file of ours says what it is. */
const HEAD = 4000;

/** What a file says it is, at its beginning; null when nothing there says so. */
export function formatOf(text: string): string | null {
  return /"format"\s*:\s*"([a-z-]{1,40})"/.exec(text.slice(0, HEAD))?.[1] ?? null;
}
