import { DECIMAL } from '../format.ts';

/**
 * What was typed, as the core reads it: where the decimal mark is a comma, no comma parts thousands,
 * and `1,250 kg` can be read only one way.
 */
export const inPoints = (typed: string) =>
  DECIMAL === '.' ? typed : typed.replace(/(\d),(?=\d)/g, '$1.');
