import type { Mm, Units } from '../../../../../core/measure/length.ts';
import { MM_PER_INCH } from '../../../../../core/measure/length.ts';

/** What one touch of a stepper adds to a length of cloth. */
export const LENGTH_STEPS: Readonly<Record<Units, Mm>> = { inch: MM_PER_INCH / 4, metric: 5 };
