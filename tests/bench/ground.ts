/** What the benchmarks stand on: the app, its floors and the core, all built by the same vite. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type InlineConfig } from 'vite';
import { root } from '../../scripts/ensure.mjs';
import { makeTempDir, removeDir } from '../browser/harness.ts';

export interface Ground {
  /** The app as `npm run build` makes it, with `bench/` for tools beside it. */
  readonly appDir: string;
  /** The empty Preact counter, with the app's own vite and service worker settings. */
  readonly counterDir: string;
  /** The page with one bare put in IndexedDB. */
  readonly putDir: string;
  /** The page that paints a cloth with a pixel for every end. */
  readonly pixelsDir: string;
  /** The page with a plain canvas to be filled and moved. */
  readonly plainDir: string;
  /** The core, bundled for Node. */
  readonly coreDir: string;
  readonly remove: () => void;
}

const here = join(root, 'tests', 'bench');

/** Builds everything into a temporary folder, so that neither dist nor another test is touched. */
export async function buildGround(): Promise<Ground> {
  const dir = makeTempDir('bench');
  const ground = {
    appDir: join(dir, 'app'),
    counterDir: join(dir, 'counter'),
    putDir: join(dir, 'put'),
    pixelsDir: join(dir, 'pixels'),
    plainDir: join(dir, 'plain'),
    coreDir: join(dir, 'core'),
    remove: () => removeDir(dir),
  };
  try {
    await buildApp(root, ground.appDir);
    await buildApp(join(here, 'pages', 'counter'), ground.counterDir);
    await buildPage(join(here, 'pages', 'put'), ground.putDir);
    await buildPage(join(here, 'pages', 'pixels'), ground.pixelsDir);
    await buildPage(join(here, 'pages', 'plain'), ground.plainDir);
    await buildForNode(join(here, 'core', 'child.ts'), ground.coreDir);
    await buildSeeding(join(here, 'pages', 'seed.ts'), join(ground.appDir, 'bench'));
    return ground;
  } catch (error) {
    ground.remove();
    throw error;
  }
}

/** With the project's own settings, whatever the folder. */
function buildApp(from: string, outDir: string): Promise<unknown> {
  return quietly({
    root: from,
    configFile: join(root, 'vite.config.ts'),
    build: { outDir, emptyOutDir: true },
  });
}

function buildPage(from: string, outDir: string): Promise<unknown> {
  return quietly({
    root: from,
    configFile: false,
    build: { outDir, emptyOutDir: true, target: 'es2022' },
  });
}

async function buildForNode(entry: string, outDir: string): Promise<void> {
  await quietly({
    root,
    configFile: false,
    publicDir: false,
    ssr: { noExternal: true },
    build: { ssr: entry, outDir, emptyOutDir: true, target: 'es2022', minify: true },
  });
  writeFileSync(join(outDir, 'package.json'), '{"type":"module"}\n');
}

async function buildSeeding(entry: string, outDir: string): Promise<void> {
  await quietly({
    root,
    configFile: false,
    publicDir: false,
    build: {
      outDir,
      emptyOutDir: true,
      target: 'es2022',
      lib: { entry, formats: ['es'], fileName: 'seed' },
    },
  });
}

function quietly(config: InlineConfig): Promise<unknown> {
  // What loaded this file did it in development, and the environment outweighs a build's own mode.
  process.env.NODE_ENV = 'production';
  return build({ ...config, logLevel: 'warn' });
}
