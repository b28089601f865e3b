/** Whether two values of plain data are the same, whatever the order of their keys. */
export function isSameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && isSameData(at(a, key), at(b, key)))
  );
}

function at(value: object, key: string): unknown {
  return (value as { readonly [key: string]: unknown })[key];
}
