/** Weights as the weaver reads them. The bench itself shows none. */
import type { Units } from '../core/measure/length.ts';
import { formatMass, type Grams } from '../core/measure/mass.ts';
import { inOurNumbers } from './format.ts';

export const mass = (grams: Grams, units: Units) => inOurNumbers(formatMass(grams, units));
