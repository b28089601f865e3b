/** Sound, voice, vibration and pedals as the weaver set them. Loaded after the bench itself stands. */
import { computed, effect, signal } from '@preact/signals';
import { decodeSenses, type Senses } from '../core/bench/hearing/senses.ts';
import { guarded, theStore } from './actions.ts';
import { learnt } from './device/pedals.ts';
import { followed, session } from './state.ts';

/** Null until read from the store. */
export const senses = signal<Senses | null>(null);

const NAME = 'senses';

export function changeSenses(change: Partial<Senses>): void {
  const now = senses.peek();
  if (now === null) return;
  senses.value = { ...now, ...change };
  void guarded(theStore().setSetting(NAME, senses.peek()));
}

async function loadSenses(): Promise<void> {
  senses.value = decodeSenses(await theStore().setting(NAME));
}

/** This file may be there before the store is; a warp on the bench never is. */
const isAtLoom = computed(() => session.value !== null);

// Another window may have changed them.
effect(() => {
  if (followed.value >= 0 && isAtLoom.value) void guarded(loadSenses());
});

effect(() => {
  learnt.clear();
  const { throwKey = '', undoKey = '', againKey = '' } = senses.value ?? {};
  if (throwKey !== '') learnt.set(throwKey, 'throw');
  if (undoKey !== '') learnt.set(undoKey, 'undo');
  if (againKey !== '') learnt.set(againKey, 'again');
});
