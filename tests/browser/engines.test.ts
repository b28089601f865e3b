// The main path in every engine: open a demo, weave, reload, lose the network, go on; take everything
// along, and go on with it elsewhere.
import { describe, expect, it } from 'vitest';
import { openChromium, openFirefox, openWebKit, serveDist, waitUntil } from './harness.ts';
import { backupIn } from './keep/keeping.ts';

/** What all three drivers can do. Scripts are text, because WebDriver takes them so. */
interface Engine {
  readonly goto: (url: string) => Promise<unknown>;
  readonly reload: () => Promise<unknown>;
  /** The value of an expression in the page, awaited where it is a promise. */
  readonly value: (expression: string) => Promise<unknown>;
  readonly close: () => Promise<void>;
}

/** Both drivers speak of a page alike. */
function engineOf({
  page,
  close,
}: {
  readonly page: {
    readonly goto: (url: string) => Promise<unknown>;
    readonly reload: () => Promise<unknown>;
    readonly evaluate: (expression: string) => Promise<unknown>;
  };
  readonly close: () => Promise<void>;
}): Engine {
  return {
    goto: (url) => page.goto(url),
    reload: () => page.reload(),
    value: (expression) => page.evaluate(expression),
    close,
  };
}

const chromiumEngine = async () => engineOf(await openChromium());
const firefoxEngine = async () => engineOf(await openFirefox());

async function webKitEngine(): Promise<Engine> {
  const { driver, close } = await openWebKit();
  return {
    goto: (url) => driver.get(url),
    reload: () => driver.navigate().refresh(),
    value: (expression) =>
      driver.executeAsyncScript(
        `const done = arguments[arguments.length - 1];
        Promise.resolve(${expression}).then(done, (error) => done(String(error)));`,
      ),
    close,
  };
}

const LONG_MS = 60_000;

/** Waits until an expression is true in the page; a page on its way to another answers nothing. */
async function until({ value }: Engine, expression: string): Promise<void> {
  const isTrue = () =>
    value(expression).then(
      (it) => it === true,
      () => false,
    );
  if (!(await waitUntil(isTrue, LONG_MS))) throw new Error(`waited for ${expression}`);
}

/** The button of these words, where it can be tapped. */
const buttonOf = (words: string) =>
  `[...document.querySelectorAll('button:enabled')].find((it) => it.textContent.trim() === '${words}')`;

async function tap(engine: Engine, words: string): Promise<void> {
  await until(engine, `${buttonOf(words)} !== undefined`);
  await engine.value(`${buttonOf(words)}.click()`);
}

const isAtBench = (engine: Engine) =>
  until(engine, "document.querySelector('.call-pick') !== null");
const isSaved = (engine: Engine) =>
  until(engine, `document.querySelector('.saved')?.dataset.saved === 'true'`);

/** What the call says: yarn, pick of the stripe, shed and side. */
const callOf = ({ value }: Engine) =>
  value(`[...document.querySelectorAll('.call-name, .call-pick, .call-of, .call-shed, .call-side')]
    .map((it) => it.textContent.trim()).join(' | ')`);

/** Throws by pedal, each press once the one before has been taken. */
async function weave(engine: Engine, picks: number): Promise<void> {
  for (let n = 0; n < picks; n += 1) {
    const before = await callOf(engine);
    await engine.value(`['keydown', 'keyup'].forEach((type) =>
      dispatchEvent(new KeyboardEvent(type, { key: 'PageDown', cancelable: true })))`);
    await waitUntil(async () => (await callOf(engine)) !== before, LONG_MS);
    // A second press within a quarter of a second is a bounce.
    await engine.value('new Promise((done) => setTimeout(done, 300))');
  }
  await isSaved(engine);
}

/** The text of the file that the page hands to its browser to save. */
async function savedText(engine: Engine): Promise<string> {
  await engine.value(`(() => {
    const make = URL.createObjectURL;
    URL.createObjectURL = (file) => {
      window.savedFile = file;
      return make.call(URL, file);
    };
  })()`);
  await tap(engine, 'Save the backup');
  await until(engine, 'window.savedFile !== undefined');
  return String(await engine.value('window.savedFile.text()'));
}

const choose = (text: string) => `(() => {
  const given = new DataTransfer();
  given.items.add(new File([${JSON.stringify(text)}], 'backup.json'));
  const input = document.querySelector('input[type="file"]');
  input.files = given.files;
  input.dispatchEvent(new Event('change', { bubbles: true }));
})()`;

describe('a weaver opens a demo, weaves, reloads, loses the network, goes on, and takes it all along', () => {
  it.concurrent.each([
    ['Chromium', chromiumEngine],
    ['Firefox', firefoxEngine],
    ['WebKit', webKitEngine],
  ])(
    'in %s',
    async (_name, open) => {
      const [here, elsewhere] = [await serveDist(), await serveDist()];
      const engine = await open();
      try {
        await engine.goto(here.url);
        await until(engine, 'navigator.serviceWorker.ready.then((it) => it.active !== null)');
        await tap(engine, 'Weave this');
        await isAtBench(engine);
        await weave(engine, 5);
        const call = await callOf(engine);
        await here.stop();
        await engine.reload();
        await isAtBench(engine);
        expect(await callOf(engine)).toBe(call);
        await weave(engine, 3);
        const last = await callOf(engine);
        expect(last).not.toBe(call);

        await tap(engine, '‹ Warps');
        await tap(engine, 'Keep safe');
        const text = await savedText(engine);
        expect(backupIn(text).warps.map(({ log }) => log.length)).toEqual([8]);

        // Another origin is another device: nothing of the first is there.
        await engine.goto(elsewhere.url);
        await tap(engine, 'Keep safe');
        await until(engine, `document.querySelector('input[type="file"]') !== null`);
        await engine.value(choose(text));
        await tap(engine, 'Bring it in');
        await until(engine, `document.body.textContent.includes('What was new in')`);
        await tap(engine, '‹ Warps');
        await tap(engine, 'Go on');
        await isAtBench(engine);
        expect(await callOf(engine)).toBe(last);
      } finally {
        await engine.close();
        await here.stop();
        await elsewhere.stop();
      }
    },
    600_000,
  );
});
