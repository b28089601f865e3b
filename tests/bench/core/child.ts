/** A process that times one pair and prints its times: nothing else shares its heap or its compiler. */
import { type Pair, timePair } from './pair.ts';
import { PAIRS } from './pairs.ts';

const [, , name = ''] = process.argv;
const pair = new Map<string, Pair>(Object.entries(PAIRS)).get(name);
if (pair === undefined) throw new Error(`got no pair named ${name}`);
console.log(JSON.stringify(timePair(pair)));
