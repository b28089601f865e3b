import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import preact from '@preact/preset-vite';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { catalogues } from './scripts/catalogues.mjs';
import { chunks } from './scripts/chunks.mjs';
import { keyOf } from './src/ui/language/keyOf.ts';

const { version } = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));

/** The development server injects styles inline; the policy of the built page would refuse them. */
function withoutPolicyInDevelopment(): Plugin {
  return {
    name: 'without-policy-in-development',
    apply: 'serve',
    transformIndexHtml: (html) =>
      html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''),
  };
}

/** Every page in the folder that is built; the empty app we are measured beside has only one. */
function everyPage(): Plugin {
  return {
    name: 'every-page',
    apply: 'build',
    config: ({ root = '.' }) => {
      const pages = readdirSync(root).filter((name) => name.endsWith('.html'));
      return { build: { rolldownOptions: { input: pages.map((name) => resolve(root, name)) } } };
    },
  };
}

/** What the bundler's own helper is in: the first screen asks for it, and would only learn so when it is there. */
function helperAtOnce(): Plugin {
  return {
    name: 'helper-at-once',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: (_, { path, bundle = {} }) => {
        const helper = Object.keys(bundle).find((name) => name.includes('rolldown-runtime'));
        if (path !== '/index.html' || helper === undefined) return [];
        const attrs = { rel: 'modulepreload', href: `./${helper}` };
        return [{ tag: 'link', attrs, injectTo: 'head' }];
      },
    },
  };
}

/** Changes with all that a log is folded by: what is kept of a fold holds only for the very same code. */
function foldVersion(): string {
  const hash = createHash('sha256');
  for (const room of ['measure', 'plan', 'bench']) {
    const folder = fileURLToPath(new URL(`./src/core/${room}`, import.meta.url));
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .sort();
    for (const name of files) hash.update(name).update(readFileSync(join(folder, name)));
  }
  return hash.digest('hex').slice(0, 16);
}

/** A picture of `npm run pictures`, for the browser's install dialogue. */
function picture(form: 'wide' | 'narrow', name: string, label: string) {
  const sizes = form === 'wide' ? '1180x820' : '390x844';
  return {
    src: `screens/${form}-${name}.webp`,
    sizes,
    type: 'image/webp',
    form_factor: form,
    label,
  };
}

export default defineConfig({
  // Relative, so that the same build works at any path of any static host.
  base: './',
  build: {
    target: 'es2022',
    // terser first, then the minifier at hand: each finds what the other leaves, and its names compress
    // better. Getters stay in both: to read a signal is to follow it.
    minify: 'terser',
    terserOptions: {
      ecma: 2020,
      module: true,
      safari10: false,
      mangle: false,
      compress: { passes: 3 },
    },
    rolldownOptions: { output: { ...chunks, minify: true } },
    modulePreload: false,
  },
  // Scripts of workers keep all their white space otherwise.
  worker: { rolldownOptions: { output: { minify: true } } },
  define: {
    'import.meta.env.APP_VERSION': JSON.stringify(version),
    'import.meta.env.FOLD_VERSION': JSON.stringify(foldVersion()),
  },
  plugins: [
    preact(),
    catalogues(keyOf),
    withoutPolicyInDevelopment(),
    everyPage(),
    helperAtOnce(),
    VitePWA({
      // A new version never takes over while weaving: the app asks first.
      registerType: 'prompt',
      injectRegister: false,
      strategies: 'generateSW',
      // The glob patterns below already take in everything; listing twice would only warn.
      includeManifestIcons: false,
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,png,json,webmanifest,woff2,txt}'],
        // Only the browser's install dialogue shows these, and it has a network.
        globIgnores: ['**/screens/**'],
        cleanupOutdatedCaches: true,
        // From the very first visit on: what is loaded later comes from the cache, not the network.
        clientsClaim: true,
      },
      manifest: {
        id: './',
        name: 'Fellmark',
        short_name: 'Fellmark',
        description:
          'Plan one warp with several pieces, then step through it pick by pick. Works without a network.',
        lang: 'en',
        dir: 'ltr',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#f6f1e7',
        theme_color: '#f6f1e7',
        categories: ['lifestyle', 'productivity', 'utilities'],
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          {
            src: 'icon-maskable-512.png',
            sizes: '512x512',
            type: 'image/png',
            purpose: 'maskable',
          },
          { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
        ],
        screenshots: [
          picture('wide', 'bench', 'At the bench on a tablet'),
          picture('wide', 'planner', 'Planning a warp of two towels'),
          picture('wide', 'warping', 'Warping, slot by slot'),
          picture('wide', 'endings', 'Ways to end a piece'),
          picture('narrow', 'bench', 'At the bench on a phone'),
          picture('narrow', 'warps', 'The warps on a phone'),
        ],
      },
    }),
  ],
  test: {
    // The core needs no browser; a test of a component asks for one in its first line.
    environment: 'node',
    setupFiles: ['tests/seed.ts'],
    // Laws over many plans take their time on a busy machine.
    testTimeout: 30_000,
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/browser/**', 'tests/size.test.ts'],
  },
});
