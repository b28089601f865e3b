/** A value, or the reason there is none. Expected failures travel this way; broken promises throw. */
export type Result<T, P> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: P };

/** Wraps a value that was found: `ok(5).value === 5`. */
export function ok<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

/** Wraps the reason for a refusal: `fail('empty').problem === 'empty'`. */
export function fail<const P>(problem: P): { readonly ok: false; readonly problem: P } {
  return { ok: false, problem };
}
