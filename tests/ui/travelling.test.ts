import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Plan } from '../../src/core/plan/plan.ts';
import { seal } from '../../src/core/travel/envelope.ts';
import { packValue } from '../../src/core/travel/packed.ts';
import { deflate, inflate } from '../../src/ui/device/deflate.ts';
import { planFromLink, planLink } from '../../src/ui/travelling.ts';
import { anyPlan } from '../core/bench/arbitraries.ts';
import { BASE, checked, DEMOS, demo } from '../core/plan/samples.ts';

const ADDRESS = 'https://fellmark.example/';

async function linkOf(plan: Plan): Promise<string> {
  const made = await planLink(plan, ADDRESS);
  if (!made.ok) throw new Error(`got no link: ${JSON.stringify(made.problem)}`);
  return made.value;
}

/** A link of anything, made as the app makes its own. */
async function forged(value: unknown, unpackedLength?: number): Promise<string> {
  const packed = packValue(value);
  const sealed = seal({
    deflated: await deflate(packed),
    unpackedLength: unpackedLength ?? packed.length,
  });
  return `${ADDRESS}#plan=${sealed}`;
}

describe('a plan by link', () => {
  it.each(DEMOS)('the demo %s fits, and comes back exactly', async (name) => {
    const plan = checked(demo(name));
    const link = await linkOf(plan);
    expect(link.length).toBeLessThan(800);
    expect(link).toMatch(/^https:\/\/fellmark\.example\/#plan=[\w-]+$/);
    const back = await planFromLink(link);
    expect(back).toStrictEqual({ ok: true, value: plan });
  });

  it('1,000 plans come back exactly', async () => {
    await fc.assert(
      fc.asyncProperty(
        anyPlan,
        fc.string({ unit: 'grapheme', maxLength: 60 }),
        async (it, name) => {
          const plan = checked({ ...it, name: `n${name}`.trim(), notes: name });
          const back = await planFromLink(await linkOf(plan));
          expect(back).toStrictEqual({ ok: true, value: plan });
          expect(JSON.stringify(back)).toBe(JSON.stringify({ ok: true, value: plan }));
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('one made with the first version opens for ever', async () => {
    const first =
      'https://fellmark.example/#plan=AQDOAADu0EociYs6d_4C46wEtuDE3IKc1EuXT4W3fP0etCqZsfbH5d-MfxJ_sP9NPMH4L3EN0__EiqtOISsyZyWwVSYW5Sk4rkyNLXBeFby6mX0Nx1qWkBVZMBmnlanvn12Cy1wLvu4Y3NLVltnJcuPm7Tv3ox7serhrYzLTP8ZHyYz_GB8zP2F5yvLs-ctXbxjehr8LWsCwMLBl0Xso_QFKf4TSn6D0Zyj9BUovcwydlcAakJmanHrk6O6glkOHGfaAybMQu9uDWjo6WAA';
    expect(await planFromLink(first)).toStrictEqual({ ok: true, value: checked(BASE) });
  });

  it('too long is refused with the numbers', async () => {
    // Random letters do not compress: 2,000 of them are some 1,500 bytes.
    const notes = fc.sample(fc.string({ minLength: 2000, maxLength: 2000 }), {
      seed: 1,
      numRuns: 1,
    });
    const made = await planLink(checked({ ...BASE, notes: notes[0] }), ADDRESS);
    expect(made.ok).toBe(false);
    if (made.ok || made.problem.code !== 'too-long') throw new Error('wanted it too long');
    expect(made.problem.most).toBe(1_800);
    expect(made.problem.got).toBeGreaterThan(1_800);
    const shorter = await planLink(
      checked({ ...BASE, notes: (notes[0] ?? '').slice(0, 200) }),
      ADDRESS,
    );
    expect(shorter.ok).toBe(true);
  });
});

const someLink = fc
  .oneof(anyPlan, fc.constantFrom(...DEMOS.map((name) => checked(demo(name)))))
  .map(linkOf);

describe('what happened to a link on its way', () => {
  it('1,000 cut anywhere: every one is refused', async () => {
    const shares = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
    await fc.assert(
      fc.asyncProperty(someLink, shares, async (made, share) => {
        const link = await made;
        const cut = link.slice(0, Math.floor(link.length * share));
        expect((await planFromLink(cut)).ok).toBe(false);
      }),
      { numRuns: 1000 },
    );
  });

  it('1,000 with one sign changed: every one is refused', async () => {
    const signs = fc.constantFrom(
      ...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.%',
    );
    await fc.assert(
      fc.asyncProperty(someLink, fc.nat(), signs, async (made, n, sign) => {
        const link = await made;
        const from = link.indexOf('#plan=') + '#plan='.length;
        const at = from + (n % (link.length - from));
        fc.pre(link[at] !== sign);
        const changed = link.slice(0, at) + sign + link.slice(at + 1);
        expect((await planFromLink(changed)).ok).toBe(false);
      }),
      { numRuns: 1000 },
    );
  });

  it('cut short it says how much came', async () => {
    const link = await linkOf(checked(demo('moss-and-chalk')));
    const whole = link.length - ADDRESS.length - '#plan='.length;
    expect(await planFromLink(link.slice(0, -300))).toEqual({
      ok: false,
      problem: { code: 'cut-short', got: whole - 300, of: whole },
    });
  });

  it.each(['', 'hello', 'https://example.org/', 'https://example.org/#plan'])(
    '%j holds no plan',
    async (text) => {
      expect(await planFromLink(text)).toEqual({ ok: false, problem: { code: 'no-plan-in-it' } });
    },
  );
});

describe('a link made to do harm', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
  });

  it('whose plan is none is refused with its problems', async () => {
    const wider = { ...BASE, loom: { ...BASE.loom, weavingWidth: 0 } };
    expect(await planFromLink(await forged(wider))).toMatchObject({
      ok: false,
      problem: { code: 'not-a-plan', problems: [{ path: 'loom.weavingWidth', code: 'too-small' }] },
    });
    expect(await planFromLink(await forged({ __proto__: null, format: 1 }))).toMatchObject({
      ok: false,
      problem: { code: 'not-a-plan' },
    });
  });

  it('that unpacks to more or to less than it says is broken', async () => {
    const length = packValue(BASE).length;
    expect((await planFromLink(await forged(BASE, length))).ok).toBe(true);
    for (const told of [length - 1, length + 1, 0, 99_999]) {
      expect(await planFromLink(await forged(BASE, told))).toEqual({
        ok: false,
        problem: { code: 'broken' },
      });
    }
  });

  it('whose bytes do not inflate is broken', async () => {
    const sealed = seal({ deflated: Uint8Array.from([7, 7, 7, 7]), unpackedLength: 10 });
    expect(await planFromLink(`#plan=${sealed}`)).toEqual({
      ok: false,
      problem: { code: 'broken' },
    });
  });

  it('that is a bomb stops inflating as soon as it is more than it said', async () => {
    const bomb = Uint8Array.from(deflateRawSync(new Uint8Array(60_000_000)));
    expect(bomb.length).toBeLessThan(65_000);
    const handedOut = countInflated();
    const sealed = seal({ deflated: bomb, unpackedLength: 90_000 });
    expect(await planFromLink(`#plan=${sealed}`)).toEqual({
      ok: false,
      problem: { code: 'broken' },
    });
    expect(handedOut()).toBeGreaterThan(0);
    expect(handedOut()).toBeLessThan(1_000_000);
    // What does not stop would have handed out all of it.
    expect((await inflate(bomb, 70_000_000))?.length).toBe(60_000_000);
    expect(handedOut()).toBeGreaterThan(60_000_000);
  });
});

/** From here on counts the bytes that any inflating stream hands out. */
function countInflated(): () => number {
  let bytes = 0;
  const Real = DecompressionStream;
  class Counting {
    readonly readable: ReadableStream<Uint8Array>;
    readonly writable: WritableStream;
    constructor(format: 'deflate-raw') {
      const real = new Real(format);
      this.writable = real.writable;
      const count = new TransformStream<Uint8Array, Uint8Array>({
        transform: (part, to) => {
          bytes += part.length;
          to.enqueue(part);
        },
      });
      this.readable = real.readable.pipeThrough(count);
    }
  }
  vi.stubGlobal('DecompressionStream', Counting);
  return () => bytes;
}
