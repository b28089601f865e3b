/**
 * Any value a database can hold, as JSON. What JSON has no word for becomes an object with `$`:
 * `{"$": "date", "of": "2026-11-27T14:30:00.000Z"}`. Values nest as deep as they like and may contain
 * themselves: the walk keeps its own list instead of calling itself.
 */
import { base64Of } from './base64.ts';

export async function textOf(value: unknown): Promise<string> {
  if (isPlain(value, 0)) return JSON.stringify(value);
  const walk: Walk = { out: [], open: [] };
  await enter(walk, value);
  for (let top = walk.open.at(-1); top !== undefined; top = walk.open.at(-1)) {
    const next = top.items[top.at++];
    if (next === undefined) {
      walk.out.push(top.close);
      walk.open.pop();
      continue;
    }
    walk.out.push(top.at === 1 ? '' : ',', next.before);
    await enter(walk, next.value);
  }
  return walk.out.join('');
}

/** Most records are plain, and this is many times faster. Deeper than a record of ours is not plain. */
function isPlain(value: unknown, depth: number): boolean {
  switch (typeof value) {
    case 'string':
    case 'boolean':
      return true;
    case 'number':
      return Number.isFinite(value) && !Object.is(value, -0);
    case 'object':
      return value === null || (depth < 60 && isPlainObject(value, depth));
    default:
      return false;
  }
}

function isPlainObject(value: object, depth: number): boolean {
  if (Array.isArray(value)) {
    return (
      Object.keys(value).length === value.length && value.every((it) => isPlain(it, depth + 1))
    );
  }
  if (Object.getPrototypeOf(value) !== Object.prototype || '$' in value || 'toJSON' in value)
    return false;
  return Object.values(value).every((it) => isPlain(it, depth + 1));
}

interface Walk {
  readonly out: string[];
  readonly open: Frame[];
}

interface Frame {
  readonly of: object;
  readonly items: readonly { readonly before: string; readonly value: unknown }[];
  readonly close: string;
  at: number;
}

async function enter(walk: Walk, value: unknown): Promise<void> {
  if (typeof value !== 'object' || value === null) walk.out.push(scalarText(value));
  else if (walk.open.some((frame) => frame.of === value)) walk.out.push('{"$": "itself"}');
  else await enterObject(walk, value);
}

function scalarText(value: unknown): string {
  if (typeof value === 'bigint') return tagged('bigint', String(value));
  if (value === undefined) return '{"$": "undefined"}';
  const isOdd = typeof value === 'number' && (!Number.isFinite(value) || Object.is(value, -0));
  if (isOdd) return tagged('number', Object.is(value, -0) ? '-0' : String(value));
  return JSON.stringify(value) ?? tagged(typeof value, String(value));
}

const tagged = (kind: string, of: string) =>
  `{"$": ${JSON.stringify(kind)}, "of": ${JSON.stringify(of)}}`;

async function enterObject(walk: Walk, value: object): Promise<void> {
  const bytes = await bytesOf(value);
  if (bytes !== null) {
    walk.out.push(tagged(nameOf(value), base64Of(bytes)));
  } else if (value instanceof Date) {
    walk.out.push(tagged('date', Number.isNaN(value.getTime()) ? 'none' : value.toISOString()));
  } else if (Array.isArray(value) && Object.keys(value).length === value.length) {
    const items = value.map((it: unknown) => ({ before: '', value: it }));
    open(walk, value, '[', ']', items);
  } else if (value instanceof Map || value instanceof Set) {
    const items = [...value].map((it: unknown) => ({ before: '', value: it }));
    open(walk, value, `{"$": "${nameOf(value)}", "of": [`, ']}', items);
  } else {
    openNamed(walk, value);
  }
}

/** An object, an array with holes, an error or an expression: its own members, whatever they are called. */
function openNamed(walk: Walk, value: object): void {
  const members = Object.entries(value);
  const isOrdinary = Object.getPrototypeOf(value) === Object.prototype && !('$' in value);
  if (isOrdinary) {
    const items = members.map(([key, it]) => ({ before: `${JSON.stringify(key)}:`, value: it }));
    open(walk, value, '{', '}', items);
    return;
  }
  const head = `{"$": ${JSON.stringify(nameOf(value))}, "as": ${JSON.stringify(String(safeText(value)))}, "of": [`;
  open(
    walk,
    value,
    head,
    ']}',
    members.map((entry) => ({ before: '', value: entry })),
  );
}

function open(walk: Walk, of: object, head: string, close: string, items: Frame['items']): void {
  walk.out.push(head);
  walk.open.push({ of, items, close, at: 0 });
}

function nameOf(value: object): string {
  return Object.prototype.toString.call(value).slice(8, -1).toLowerCase();
}

function safeText(value: object): string {
  return value instanceof RegExp || value instanceof Error ? String(value) : '';
}

async function bytesOf(value: object): Promise<Uint8Array | null> {
  if (value instanceof Blob) return new Uint8Array(await value.arrayBuffer());
  if (value instanceof ArrayBuffer) return new Uint8Array(value);
  if (ArrayBuffer.isView(value))
    return new Uint8Array(value.buffer, value.byteOffset, value.byteLength);
  return null;
}
