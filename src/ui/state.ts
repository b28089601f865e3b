/** Every signal of the app. Only `actions.ts` writes them. */
import { computed, signal } from '@preact/signals';
import type { Work } from '../core/backup/reminder.ts';
import type { Course } from '../core/bench/course.ts';
import type { Due } from '../core/bench/dues.ts';
import type { LogEvent, Tension } from '../core/bench/events.ts';
import type { Kept } from '../core/bench/kept.ts';
import { type PickFacts, pickAt } from '../core/bench/pickAt.ts';
import type { Progress } from '../core/bench/progress.ts';
import { type Place, placeOf, redoTarget } from '../core/bench/undo.ts';
import type { Units } from '../core/measure/length.ts';
import type { Plan, Side } from '../core/plan/plan.ts';
import type { Problem } from '../core/plan/problems.ts';
import { remembering } from '../core/plan/remembering.ts';
import type { WarpingWay } from '../core/plan/warping/list.ts';
import type { StoreState } from '../store/herald.ts';
import type { StoreTrouble, WarpRecord } from '../store/store.ts';
import type { ArrivalProblem } from './travelling.ts';

export type Screen =
  | { readonly kind: 'warps' }
  | { readonly kind: 'weave' }
  | { readonly kind: 'warping' }
  | { readonly kind: 'plan' }
  | { readonly kind: 'yarns' }
  | { readonly kind: 'keep' }
  | { readonly kind: 'paper'; readonly job: PaperJob }
  /** What the cloth became, and what the next plan learns from it. */
  | { readonly kind: 'measure' }
  | { readonly kind: 'journal' }
  /** Motifs, the cloth they are taken from, and planned against woven. */
  | { readonly kind: 'motifs'; readonly page: MotifPage; readonly back: Screen };

/** `stretch` and `against` are about a piece of the warp on the bench, counted from 0. */
export type MotifPage =
  | { readonly kind: 'shelf' }
  | { readonly kind: 'stretch'; readonly piece: number }
  | { readonly kind: 'against'; readonly piece: number };

/** What is to be printed, and where the weaver comes from. */
export interface PaperJob {
  readonly course: Course;
  readonly dues: readonly Due[];
  /** Null as long as warping has not begun. */
  readonly way: WarpingWay | null;
  readonly back: Screen;
}

/** A warp as the Warps screen shows it. */
export interface WarpCard {
  readonly warp: WarpRecord;
  /** Null when the stored plan can no longer be read. */
  readonly progress: Progress | null;
  /** What was woven on it since the last backup went out. */
  readonly work: Work;
  /** Steps of its warping list, once one of them is ticked; 0 before. */
  readonly warpingSteps: number;
}

/**
 * The warp on the bench. `log` grows in place: one push a tap, however long it is. Just after a start
 * its beginning may still be missing (`resuming.ts`).
 */
export interface Session {
  readonly warp: WarpRecord;
  /** As it stands now, changed at the loom or not. */
  readonly plan: Plan;
  /** As it was put on the loom: what the log is folded over. */
  readonly base: Plan;
  readonly log: LogEvent[];
  /** The log folded up to not far from its end, so that an undo need not begin at its beginning. */
  readonly kept: Kept | null;
  readonly progress: Progress;
}

export const THEMES = ['auto', 'light', 'dark', 'contrast'] as const;
export type Theme = (typeof THEMES)[number];

export interface Settings {
  readonly theme: Theme;
  /** The hand the controls lie under; `plan` takes it from each plan. */
  readonly hand: Side | 'plan';
  /** A second throw within this many milliseconds is a bounce of the first. */
  readonly bounceMs: number;
  /** How far the weaver sits from the screen, in centimetres: the size of what is read. */
  readonly distance: number;
  /** For gloves or wet hands: larger controls. */
  readonly gloves: 'off' | 'on';
  /** What the weaver reads and types where no plan says so: on the shelf, in a new plan. */
  readonly units: Units;
  /** How the warp was when it was measured last. */
  readonly tension: Tension;
  /** By eye: picks one tap on a yarn stands for. */
  readonly turnPicks: number;
}

export const DEFAULT_SETTINGS: Settings = {
  theme: 'auto',
  hand: 'plan',
  bounceMs: 250,
  distance: 70,
  gloves: 'off',
  units: 'metric',
  tension: 'tight',
  turnPicks: 1,
};

/** A file that was refused, with everything that is wrong with it. */
export interface Refusal {
  readonly fileName: string;
  readonly problems: readonly Problem[];
}

/** A plan that came by a link or a code: only shown, until the weaver takes it in. */
export type Arrival =
  | { readonly kind: 'plan'; readonly plan: Plan }
  | { readonly kind: 'refused'; readonly problem: ArrivalProblem };

export const screen = signal<Screen>({ kind: 'warps' });
export const warpCards = signal<readonly WarpCard[] | null>(null);
/** When a backup last left this device. ISO 8601, UTC. */
export const exportedAt = signal<string | null>(null);
export const session = signal<Session | null>(null);
export const settings = signal<Settings>(DEFAULT_SETTINGS);
export const refusal = signal<Refusal | null>(null);
export const arrival = signal<Arrival | null>(null);
/** Events painted but not yet on the disk. */
export const unsaved = signal(0);
/** The oldest of them has waited longer than it may. */
export const savingSlowly = signal(false);
export const trouble = signal<StoreTrouble | null>(null);
/** Whether this window writes, in how many copies, and what was lost. */
export const storeState = signal<StoreState>({
  pen: 'here',
  copies: 'unknown',
  loss: null,
  trouble: null,
});
/** The saved data could not be opened: there is nothing to show but that. */
export const isStuck = signal(false);
/** Goes up whenever another window has changed something else than the log. */
export const followed = signal(0);
export const updateWaiting = signal(false);
/** A short word to the weaver; replaced by the next. */
export const notice = signal<string | null>(null);

/** What is to be known of the pick to throw next; null when everything is woven. */
export const factsOf = remembering(({ course, pick }: Progress): PickFacts | null =>
  pickAt(course, pick),
);
export const facts = computed(() =>
  session.value === null ? null : factsOf(session.value.progress),
);
export const canRedo = computed(
  () => session.value !== null && redoTarget(session.value.log, isOfThisScreen) !== null,
);

/** Steps of warping are taken back where they were ticked, picks on the bench: never out of sight. */
export function isOfThisScreen(event: LogEvent): boolean {
  return placeOf(event, session.peek()?.log ?? []) === PLACE_OF[screen.peek().kind];
}

const PLACE_OF: Readonly<Partial<Record<Screen['kind'], Place>>> = {
  warping: 'warping',
  weave: 'weaving',
  measure: 'measuring',
  journal: 'journal',
};
export const controlsHand = computed<Side>(() => {
  const { hand } = settings.value;
  return hand === 'plan' ? (session.value?.plan.weaving.hand ?? 'right') : hand;
});
