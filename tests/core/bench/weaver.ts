/**
 * A weaver who throws every pick by hand: shuttles that lie on a side, ends that were last in a
 * shed, two queues. Written from the design's section 4, sharing no code with the core, and as
 * slow as that.
 */
import type { Letter, Plan, Resting, Side } from '../../../src/core/plan/plan.ts';
import { blocksByHand, type HandBlock, type HandPick, picksByHand } from './layByHand.ts';

export interface Woven {
  readonly pick: number;
  readonly piece: number;
  readonly yarn: Letter;
  readonly shed: number;
  readonly from: Side;
  /** Blocks, turns and picks of them counted inside the piece, the block and the turn. */
  readonly block: { readonly ofPiece: number; readonly done: number; readonly left: number };
  readonly turn: { index: number; of: number; done: number; picks: number };
  readonly stripe: { readonly index: number; readonly done: number; readonly picks: number };
  readonly coming: Coming | null;
  readonly leaving: Leaving | null;
  readonly catches: readonly Letter[];
  readonly parked: Parked;
  readonly loomLength: number;
}

export interface Coming {
  readonly entry: 'new' | 'floated' | 'caught';
  readonly edge: 'none' | 'caught' | 'not-caught';
  readonly overPicks: number;
  readonly overLength: number;
  readonly instead: Letter | null;
}

export interface Leaving {
  readonly rest: 'ends' | 'float' | 'catch' | 'cut';
  readonly overPicks: number;
  readonly overLength: number;
  readonly side: Side;
  readonly nextYarn: Letter | null;
}

export interface Parked {
  readonly left: readonly string[];
  readonly right: readonly string[];
  readonly reach: number;
}

/** What the weaver found at the loom and told: other sheds, and shuttles on other sides. */
export interface Found {
  readonly shedFlips: readonly number[];
  readonly sides: readonly { readonly pick: number; readonly yarn: Letter; readonly side: Side }[];
}

interface Stripe {
  readonly yarn: Letter;
  readonly start: number;
  readonly end: number;
  from: Side;
  restSide: Side;
  entry: Coming['entry'];
  edge: Coming['edge'];
  rest: Leaving['rest'];
  every: number;
  before: Stripe | null;
  next: Stripe | null;
}

const other = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** Weaves every pick of every piece. */
export function weave(plan: Plan, found: Found = { shedFlips: [], sides: [] }): readonly Woven[] {
  const woven: Woven[] = [];
  let stripesBefore = 0;
  for (const piece of plan.pieces.keys()) {
    const cloth = new Cloth(plan, piece, woven.length, found);
    cloth.throwAll();
    woven.push(...cloth.facts(stripesBefore));
    stripesBefore += cloth.stripes.length;
  }
  return woven;
}

class Cloth {
  readonly stripes: Stripe[] = [];
  private readonly picks: readonly HandPick[];
  private readonly sheds: number[] = [];
  private readonly sides: Side[] = [];
  private readonly lying = new Map<Letter, Side>();
  private readonly told = new Map<Letter, Side>();

  private readonly plan: Plan;
  private readonly piece: number;
  private readonly firstPick: number;
  private readonly blocks: readonly HandBlock[];
  private readonly found: Found;

  constructor(plan: Plan, piece: number, firstPick: number, found: Found) {
    this.plan = plan;
    this.piece = piece;
    this.firstPick = firstPick;
    this.found = found;
    this.blocks = blocksByHand(plan, piece);
    this.picks = picksByHand(this.blocks);
    this.picks.forEach(({ yarn }, n) => {
      const last = this.stripes.at(-1);
      if (last?.yarn === yarn) this.stripes[this.stripes.length - 1] = { ...last, end: n + 1 };
      else this.stripes.push(emptyStripe(yarn, n));
    });
  }

  throwAll(): void {
    const words = this.plan.loom.kind === 'shaft' ? ['odd', 'even'] : ['up', 'down'];
    let shed = words.indexOf(this.plan.pieces[this.piece]?.startShed ?? '');
    for (const stripe of this.stripes) {
      for (let n = stripe.start; n < stripe.end; n++) {
        this.look(n);
        if (n === stripe.start) this.takeUp(stripe);
        if (this.found.shedFlips.includes(this.firstPick + n)) shed = 1 - shed;
        if (n === stripe.start) this.comeIn(stripe, shed);
        const from = this.lying.get(stripe.yarn) ?? 'left';
        this.sides.push(from);
        this.sheds.push(shed);
        this.lying.set(stripe.yarn, other(from));
        this.told.delete(stripe.yarn);
        shed = 1 - shed;
      }
      stripe.restSide = this.lying.get(stripe.yarn) ?? 'left';
    }
  }

  /** The weaver says where shuttles lie before pick n: they lie there. */
  private look(n: number): void {
    for (const { pick, yarn, side } of this.found.sides) {
      if (pick !== this.firstPick + n) continue;
      this.lying.set(yarn, side);
      this.told.set(yarn, side);
      const resting = this.stripes.findLast((it) => it.yarn === yarn && it.end <= n);
      if (resting !== undefined) resting.restSide = side;
    }
  }

  /** The shuttle of a stripe taken up: carried from where it lies, or started anew. */
  private takeUp(stripe: Stripe): void {
    const before = this.stripes.findLast((it) => it.yarn === stripe.yarn && it.end <= stripe.start);
    const resting = before === undefined ? null : this.restingBetween(before, stripe);
    if (before !== undefined && resting !== null) {
      before.rest = resting.mode;
      before.every = resting.mode === 'catch' ? resting.every : 0;
      before.next = stripe;
      stripe.before = before;
      if (resting.mode !== 'cut') stripe.entry = resting.mode === 'float' ? 'floated' : 'caught';
    }
    if (stripe.entry === 'new') this.lying.set(stripe.yarn, this.startSide(stripe));
    stripe.from = this.lying.get(stripe.yarn) ?? 'left';
  }

  private restingBetween(before: Stripe, stripe: Stripe): Resting {
    const chosen =
      this.blockAt(stripe.start)?.plan?.resting?.[stripe.yarn] ??
      this.blockAt(before.end - 1)?.plan?.resting?.[stripe.yarn] ??
      this.plan.yarns.find((yarn) => yarn.letter === stripe.yarn)?.resting;
    if (chosen !== undefined) return chosen;
    const float = this.length(before.end, stripe.start);
    return { mode: float <= this.plan.weaving.carryLimit + 1e-6 ? 'float' : 'cut' };
  }

  private startSide(stripe: Stripe): Side {
    const told = this.told.get(stripe.yarn);
    if (told !== undefined) return told;
    const { weaving, pieces } = this.plan;
    const chosen = this.blockAt(stripe.start)?.plan?.starts?.[stripe.yarn];
    const piece = pieces[this.piece];
    const neighbour = this.stripes[this.stripes.indexOf(stripe) - 1];
    if (neighbour !== undefined) return chosen ?? this.lying.get(neighbour.yarn) ?? 'left';
    if (piece?.beginning.kind === 'hemstitch') return weaving.workingSide;
    return chosen ?? piece?.startSide ?? weaving.hand;
  }

  /** The end at the edge holds the yarn only if it lies otherwise now than when the yarn left. */
  private comeIn(stripe: Stripe, shed: number): void {
    if (stripe.entry === 'new' || stripe.before === null) return;
    stripe.edge = this.sheds[stripe.before.end - 1] === shed ? 'not-caught' : 'caught';
  }

  private blockAt(n: number): HandBlock | undefined {
    return this.blocks[this.picks[n]?.block ?? -1];
  }

  private length(from: number, to: number): number {
    return this.picks.slice(from, to).reduce((sum, pick) => sum + pick.spacing, 0);
  }

  facts(stripesBefore: number): readonly Woven[] {
    const catches = this.catches();
    return this.picks.map((pick, n): Woven => {
      const at = this.stripes.findIndex((it) => it.start <= n && n < it.end);
      const stripe = this.stripes[at];
      if (stripe === undefined) throw new Error('no stripe');
      const ofBlock = this.picks.filter((it) => it.block === pick.block).length;
      const done = n - this.picks.findIndex((it) => it.block === pick.block);
      const turns = this.blocks[pick.block]?.turns.length ?? 0;
      return {
        pick: this.firstPick + n,
        piece: this.piece,
        yarn: pick.yarn,
        shed: this.sheds[n] ?? -1,
        from: this.sides[n] ?? 'left',
        block: { ofPiece: pick.block, done, left: ofBlock - done },
        turn: { index: pick.turn, of: turns, done: pick.ofTurn, picks: pick.turnPicks },
        stripe: {
          index: stripesBefore + at,
          done: n - stripe.start,
          picks: stripe.end - stripe.start,
        },
        coming: n === stripe.start ? this.coming(stripe, at) : null,
        leaving: n === stripe.end - 1 ? this.leaving(stripe, at) : null,
        catches: catches[n] ?? [],
        parked: this.parked(stripe, n),
        loomLength: this.length(0, n),
      };
    });
  }

  private coming(stripe: Stripe, at: number): Coming {
    const { entry, edge, before, start } = stripe;
    const instead = this.stripes[at - 1]?.yarn ?? null;
    if (entry === 'new' || before === null)
      return { entry, edge, instead, overPicks: 0, overLength: 0 };
    return {
      entry,
      edge,
      instead,
      overPicks: start - before.end,
      overLength: this.length(before.end, start),
    };
  }

  private leaving({ rest, restSide, next, end }: Stripe, at: number): Leaving {
    const nextYarn = this.stripes[at + 1]?.yarn ?? null;
    const over = next === null ? end : next.start;
    return {
      rest,
      side: restSide,
      nextYarn,
      overPicks: over - end,
      overLength: this.length(end, over),
    };
  }

  /** Every k picks of others a catch is owed; it is paid when the shuttle passes the resting side. */
  private catches(): Letter[][] {
    const caught: Letter[][] = this.picks.map(() => []);
    for (const stripe of this.stripes) {
      let owed = false;
      for (let n = stripe.end + 1; n < (stripe.next?.start ?? 0) && stripe.every > 0; n++) {
        if ((n - stripe.end) % stripe.every === 0) owed = true;
        if (!owed || this.sides[n] !== stripe.restSide) continue;
        caught[n]?.push(stripe.yarn);
        owed = false;
      }
    }
    return caught.map((letters) => letters.sort());
  }

  private parked(stripe: Stripe, n: number): Parked {
    const used: Stripe[] = [];
    for (const it of this.stripes.filter((one) => one.end <= n)) {
      const same = used.findIndex((one) => one.yarn === it.yarn);
      if (same >= 0) used.splice(same, 1);
      if (it.rest === 'float' || it.rest === 'catch') used.push(it);
    }
    const resting = used.filter((it) => it.yarn !== stripe.yarn || n === stripe.start);
    const ready = this.laidOut(stripe, n, resting);
    const queue = [
      ...ready.map((it) => ({ ...it, lies: it.from })),
      ...resting.map((it) => ({ ...it, lies: it.restSide })),
    ];
    const name = (it: Stripe) => `${it.yarn} ${stateOf(it, stripe, n)}`;
    const on = (side: Side) => {
      const lying = queue.filter((it) => it.lies === side).map(name);
      return n > stripe.start && this.sides[n] === side
        ? [`${stripe.yarn} working`, ...lying]
        : lying;
    };
    const taken = `${stripe.yarn} working`;
    const [left, right] = [on('left'), on('right')];
    return { left, right, reach: Math.max(left.indexOf(taken), right.indexOf(taken)) };
  }

  /** Shuttles that start in this block or the next wait nearest the weaver, by order of first use. */
  private laidOut(stripe: Stripe, n: number, resting: readonly Stripe[]): readonly Stripe[] {
    const block = this.picks[stripe.end - 1]?.block ?? 0;
    const from = n === stripe.start ? stripe.start : stripe.end;
    const seen = new Set([...resting.map((it) => it.yarn), ...(from === n ? [] : [stripe.yarn])]);
    // The working yarn, once cut here, may be laid out again only after it has left.
    return this.stripes.filter((it) => {
      if (it.start < from || seen.has(it.yarn)) return false;
      seen.add(it.yarn);
      return (this.picks[it.start]?.block ?? 0) <= block + 1;
    });
  }
}

function emptyStripe(yarn: Letter, start: number): Stripe {
  return {
    yarn,
    start,
    end: start + 1,
    from: 'left',
    restSide: 'left',
    entry: 'new',
    edge: 'none',
    rest: 'ends',
    every: 0,
    before: null,
    next: null,
  };
}

function stateOf(it: Stripe, working: Stripe, n: number): string {
  if (it.yarn === working.yarn && n === working.start) return 'working';
  return it.end <= n ? 'resting' : 'ready';
}
