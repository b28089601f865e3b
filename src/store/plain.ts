/**
 * Only plain data goes in. A signal or a class instance would be cloned into rubbish without an
 * error, and what JSON cannot carry would be missing from a backup.
 */
import { StoreError } from './store.ts';

/**
 * A deep copy of `value`, taken now, so that nothing done to it later reaches the store.
 *
 * Throws `StoreError('unknown')` with the path of the first thing that is not null, a boolean, a
 * finite number, a string, undefined, or an array or plain object of these.
 *
 * @example plainCopy({ picks: 2 }, 'event') // { picks: 2 }
 */
export function plainCopy<T>(value: T, path: string): T {
  checkPlain(value, path);
  return structuredClone(value);
}

function checkPlain(value: unknown, path: string): void {
  if (isPlainScalar(value)) return;
  if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) checkPlain(item, `${path}[${index}]`);
    return;
  }
  if (!isPlainObject(value)) throw notPlain(value, path);
  for (const [key, item] of Object.entries(value)) checkPlain(item, `${path}.${key}`);
}

function isPlainScalar(value: unknown): boolean {
  switch (typeof value) {
    case 'number':
      return Number.isFinite(value);
    case 'string':
    case 'boolean':
    case 'undefined':
      return true;
    default:
      return value === null;
  }
}

/** Also one from another window: its prototype is not ours, but has none above it either. */
function isPlainObject(value: unknown): value is object {
  if (typeof value !== 'object' || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype) === null;
}

function notPlain(value: unknown, path: string): StoreError {
  return new StoreError('unknown', `got ${kindOf(value)} at ${path}, wanted plain data`);
}

function kindOf(value: unknown): string {
  if (typeof value === 'number') return String(value);
  // Its name would say nothing in a minified build, and a signal does not even have one.
  return typeof value === 'object' ? 'an instance of a class' : typeof value;
}
