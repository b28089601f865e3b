/**
 * The canvas of the viewer: what is shown, from where, and the frames that show it. Nothing here is
 * in the component's state, so that a page drawn along by a finger renders no component.
 */

import { type ClothPlan, endWidth } from '../../../core/planner/clothPlan.ts';
import { reducedMotion } from '../../device/theme.ts';
import { once } from '../../once.ts';
import { compose, type Frame, type Look } from './compose.ts';
import { type Layer, paintUnderlay, type Shown, type Subject } from './layers.ts';
import { paintPatches } from './patches.ts';
import { RULER_BELOW, RULER_LEFT } from './ruler.ts';
import { addFirstTiles, addTiles, layerFor } from './tiling.ts';
import { fitted, kept, moved, type Page, type Place, type View, zoomed } from './view.ts';

export interface Stage {
  /** Shows another cloth, or the same one otherwise; keeps the view where the page stays the same. */
  readonly show: (subject: Subject, look: Look) => void;
  readonly place: (width: number, height: number, dpr: number) => void;
  /** CSS pixels, as a finger draws the page along. */
  readonly move: (right: number, down: number, how?: Motion) => void;
  /** The point, in CSS pixels from the canvas' corner, stays where it is; the middle when absent. */
  readonly zoom: (by: number, at?: Point, how?: Motion) => void;
  readonly fit: () => void;
  readonly close: () => void;
}

/** `gliding` where one tap moves far: the eye must see where to. */
export type Motion = 'at once' | 'gliding';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Milliseconds of a glide. */
const GLIDE = 160;
/** While the size changes, old tiles are stretched; for so long after the last change. */
const SETTLED = 90;
/** Milliseconds after which the small whole page is painted, if nobody wanted it before. */
const IDLE = 250;
/** CSS pixels a thread may be wide at most. */
const WIDEST_THREAD = 34;

interface Shows {
  readonly subject: Subject;
  readonly look: Look;
  readonly page: Page;
  /** Painted when first wanted, or when there is time. */
  readonly underlay: () => HTMLCanvasElement;
}

interface State {
  /** The canvas over all of the room, and beneath it the room for what is shown until it is painted. */
  readonly canvas: HTMLCanvasElement;
  readonly room: HTMLElement;
  sight: 'nothing' | 'patches' | 'whole';
  place: Place | null;
  shows: Shows | null;
  view: View | null;
  /** Whether the weaver has moved away from the whole page. */
  isOwn: boolean;
  layer: Layer | null;
  glide: { readonly from: View; readonly to: View; readonly since: number } | null;
  zoomedAt: number;
  frame: number;
  idle: ReturnType<typeof setTimeout> | undefined;
  idleFrame: number;
}

/** Paints on the canvas, and first into the room beneath it, which must be empty. */
export function openStage(canvas: HTMLCanvasElement, room: HTMLElement): Stage {
  const state: State = {
    canvas,
    room,
    sight: 'nothing',
    place: null,
    shows: null,
    view: null,
    isOwn: false,
    layer: null,
    glide: null,
    zoomedAt: Number.NEGATIVE_INFINITY,
    frame: 0,
    idle: undefined,
    idleFrame: 0,
  };
  // A tablet may empty canvases of a page in the background.
  const refresh = () => {
    if (document.visibilityState !== 'visible' || state.shows === null) return;
    show(state, state.shows.subject, state.shows.look);
    wake(state);
  };
  document.addEventListener('visibilitychange', refresh);
  const close = () => {
    cancelAnimationFrame(state.frame);
    cancelAnimationFrame(state.idleFrame);
    clearTimeout(state.idle);
    document.removeEventListener('visibilitychange', refresh);
  };
  return { ...movesOf(state), ...showsOf(state), close };
}

function movesOf(state: State): Pick<Stage, 'move' | 'zoom' | 'fit'> {
  // The way to go is not for a reader.
  const change = (to: (view: View) => View, how: Motion = 'at once') => {
    const { place, shows, view } = state;
    if (place === null || shows === null || view === null) return;
    const target = kept(to(state.glide?.to ?? view), shows.page, place);
    const since = performance.now();
    const glides = how === 'gliding' && !reducedMotion();
    state.glide = glides ? { from: view, to: target, since } : null;
    if (!glides) state.view = target;
    if (target.scale !== view.scale) state.zoomedAt = glides ? since + GLIDE : since;
    state.isOwn = true;
    wake(state);
  };
  return {
    move: (right, down, how) => change((view) => moved(view, right, down), how),
    zoom: (by, at, how) =>
      change((view) => zoomed(view, by, at === undefined ? undefined : fromMiddle(state, at)), how),
    fit: () => {
      const { place, shows } = state;
      if (place === null || shows === null) return;
      change(() => fitted(shows.page, place), 'gliding');
      state.isOwn = false;
    },
  };
}

/** The view of a moment on the way to where a glide ends: fast at first, gently at last. */
function glideOn(state: State, now: number): void {
  const { glide } = state;
  if (glide === null) return;
  const way = Math.min(1, Math.max(0, (now - glide.since) / GLIDE));
  const part = 1 - (1 - way) ** 3;
  const between = (from: number, to: number) => from + part * (to - from);
  const { from, to } = glide;
  const scale = from.scale * (to.scale / from.scale) ** part;
  state.view = { x: between(from.x, to.x), y: between(from.y, to.y), scale };
  if (way < 1) return;
  state.view = to;
  state.glide = null;
}

function showsOf(state: State): Pick<Stage, 'show' | 'place'> {
  return {
    show: (subject, look) => {
      show(state, subject, look);
      wake(state);
    },
    place: (width, height, dpr) => {
      setPlace(state, width, height, dpr);
      // At once: a canvas is emptied by its new size, and would flash. Not once more in the next frame.
      cancelAnimationFrame(state.frame);
      state.frame = 0;
      if (paint(state, performance.now())) wake(state);
    },
  };
}

/** One frame, and as many after it as it asks for. */
function wake(state: State): void {
  if (state.frame !== 0) return;
  state.frame = requestAnimationFrame((now) => {
    state.frame = 0;
    if (paint(state, now)) wake(state);
  });
}

function fromMiddle({ place }: State, { x, y }: Point): Point {
  if (place === null) return { x: 0, y: 0 };
  return { x: x - place.left - place.width / 2, y: y - place.height / 2 };
}

function show(state: State, subject: Subject, look: Look): void {
  const before = state.shows?.page;
  const page = pageOf(subject.cloth);
  state.shows = { subject, look, page, underlay: once(() => paintUnderlay(subject)) };
  state.layer = null;
  if (before !== undefined && state.view !== null) {
    // The same place on a page of another size, as when a cloth is washed.
    const [right, down] = [page.width / before.width, page.height / before.height];
    state.view = { ...state.view, x: state.view.x * right, y: state.view.y * down };
  }
  settle(state);
}

function pageOf(cloth: ClothPlan): Page {
  const { width, height } = cloth;
  return { width, height, mostScale: WIDEST_THREAD / endWidth(cloth) };
}

function setPlace(state: State, width: number, height: number, dpr: number): void {
  const { canvas } = state;
  canvas.width = Math.max(1, Math.round(width * dpr));
  canvas.height = Math.max(1, Math.round(height * dpr));
  // Stretched over the last part of a pixel of its room it would be blurred.
  canvas.style.width = `${canvas.width / dpr}px`;
  canvas.style.height = `${canvas.height / dpr}px`;
  state.place = { left: RULER_LEFT, width: width - RULER_LEFT, height: height - RULER_BELOW, dpr };
  settle(state);
}

function settle(state: State): void {
  const { place, shows, view, isOwn } = state;
  if (place === null || shows === null || place.width <= 0 || place.height <= 0) return;
  state.view = view === null || !isOwn ? fitted(shows.page, place) : kept(view, shows.page, place);
}

/** Paints a frame; true where another must follow. */
function paint(state: State, now: number): boolean {
  glideOn(state, now);
  const { canvas, place, shows, view } = state;
  if (place === null || shows === null || view === null) return false;
  const shown = shownBy(view, place, canvas);
  const isMoving = now - state.zoomedAt < SETTLED;
  const known = state.layer;
  const layer = layerFor(known, shows.subject, shown, isMoving);
  state.layer = layer;
  const unfinished =
    known === null ? addFirstTiles(layer, shown) : addTiles(layer, shown, isMoving);
  put(state, { ...shows, layer, shown, dpr: place.dpr });
  if (!unfinished) {
    clearTimeout(state.idle);
    state.idle = setTimeout(() => {
      // In a frame, as a page that nobody sees has none; not in the one that a change waits for.
      state.idleFrame = requestAnimationFrame(() => prepare(state));
    }, IDLE);
  }
  return unfinished || isMoving || state.glide !== null;
}

/** As patches at first; whatever comes after that on the whole canvas. */
function put(state: State, frame: Frame): void {
  const { canvas, room, sight } = state;
  if (sight === 'nothing' && paintPatches(room, frame)) {
    state.sight = 'patches';
    return;
  }
  const ctx = canvas.getContext('2d', { alpha: false });
  if (ctx === null) return;
  compose(ctx, frame, { x: 0, y: 0 });
  room.replaceChildren();
  state.sight = 'whole';
}

/** What the first finger will want, one thing at a time, and not in the frame that shows the cloth first. */
function prepare(state: State): void {
  if (state.sight === 'whole') state.shows?.underlay();
  else if (paint(state, performance.now())) wake(state);
}

/** On whole device pixels: a tile drawn between two of them is blurred. */
function shownBy({ x, y, scale }: View, place: Place, canvas: HTMLCanvasElement): Shown {
  const { dpr, left, width, height } = place;
  return {
    x: Math.round((left + width / 2 - x * scale) * dpr),
    y: Math.round((height / 2 - y * scale) * dpr),
    scale: scale * dpr,
    width: canvas.width,
    height: canvas.height,
  };
}
