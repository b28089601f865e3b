/** Whether a text holds every word of a search, whatever their order, case and accents. */
export function holds(text: string, search: string): boolean {
  const plain = plainWords(text);
  return plainWords(search)
    .split(/\s+/)
    .every((word) => plain.includes(word));
}

function plainWords(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}
