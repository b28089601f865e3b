/** Every way a store operation can fail, as the one error the app sees. */
import { StoreError, type StoreTrouble } from './store.ts';

const TROUBLE_BY_NAME: { readonly [name: string]: StoreTrouble } = {
  QuotaExceededError: 'quota',
  VersionError: 'newer-data',
  SecurityError: 'refused',
  InvalidStateError: 'lost-connection',
  AbortError: 'lost-connection',
  // What WebKit says when its database process went away.
  UnknownError: 'lost-connection',
};

/** The same trouble as a `StoreError`, its first cause kept. */
export function storeErrorFrom(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const name = nameOf(error);
  const message = error instanceof Error ? error.message : String(error);
  return new StoreError(TROUBLE_BY_NAME[name] ?? 'unknown', `${name}: ${message}`, error);
}

/** Whether a new handle may help. Our own refusals and a full disk stay what they are. */
export function isLostConnection(error: unknown): boolean {
  return !(error instanceof StoreError) && storeErrorFrom(error).trouble === 'lost-connection';
}

/** Why a store that was closed takes no more calls; trying again does not help. */
export function closedByUs(): StoreError {
  return new StoreError('lost-connection', 'got a call after close, wanted an open store');
}

/** Why a warp is not added under the id of another one. */
export function warpAlreadyThere(warp: string): StoreError {
  return new StoreError('unknown', `got warp ${warp} a second time, wanted a new id`);
}

/** Why nothing is written to a warp that is not there, or was taken away. */
export function noSuchWarp(warp: string): StoreError {
  return new StoreError('unknown', `got warp ${warp}, wanted one that is in the store`);
}

/** Why a plan is not written over an earlier one: each of a warp has a number of its own. */
export function revisionAlreadyThere(warp: string, revision: number): StoreError {
  return new StoreError(
    'unknown',
    `got revision ${revision} of warp ${warp} a second time, wanted a new number`,
  );
}

/**
 * Another window has written since this one last looked; nothing of the write was kept. The writer
 * looks again and repeats it, so that nobody else ever sees this.
 */
export class OutOfStep extends StoreError {
  constructor(n: number) {
    super('lost-connection', `got a database at write ${n}, made by another window`);
  }
}

function nameOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'name' in error
    ? String(error.name)
    : typeof error;
}
