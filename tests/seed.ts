/**
 * One seed for all laws, so that a red run can be run again. `FELLMARK_SEED=7 npm run unit` looks
 * elsewhere, `FELLMARK_SEED=any` somewhere new every time.
 */
import fc from 'fast-check';

const told = process.env.FELLMARK_SEED ?? '20261125';
if (told !== 'any') fc.configureGlobal({ seed: Number(told) });
