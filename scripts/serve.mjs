// A small static server for one folder, for `npm start` and the browser tests. Node's own modules only.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { pipeline } from 'node:stream';
import { createGzip } from 'node:zlib';

/** @type {Readonly<Record<string, string>>} */
const types = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.webp': 'image/webp',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
};

/**
 * Serves a folder over http and answers once it listens. Port 0 takes any free one; a port that is
 * taken makes it try the next `tries - 1` ones, then throw. `stop` also cuts open connections, and
 * `start` listens on the same port again.
 *
 * @param {{ dir: string, port?: number, host?: string, tries?: number }} options
 * @returns {Promise<{ url: string, port: number, stop: () => Promise<void>, start: () => Promise<void> }>}
 */
export async function serveFolder({ dir, port = 0, host = '127.0.0.1', tries = 1 }) {
  const server = createServer((request, response) => answer(dir, request, response));
  const taken = await listenOnFree(server, port, host, tries);
  return {
    url: `http://127.0.0.1:${taken}/`,
    port: taken,
    stop: () => stop(server),
    start: () => listen(server, taken, host),
  };
}

/**
 * @param {string} dir
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function answer(dir, request, response) {
  const path = fileFor(dir, request.url ?? '/');
  if (path === undefined || (request.method !== 'GET' && request.method !== 'HEAD')) {
    response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8' }).end('Not found\n');
    return;
  }
  const type = types[extname(path)] ?? 'application/octet-stream';
  const isPacked = isText(type) && takesGzip(request);
  response.writeHead(200, {
    'content-type': type,
    'cache-control': 'no-cache',
    'x-content-type-options': 'nosniff',
    ...(isText(type) ? { vary: 'accept-encoding' } : {}),
    ...(isPacked ? { 'content-encoding': 'gzip' } : {}),
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  const steps = isPacked ? [createGzip(), response] : [response];
  // What fails on the way has already cut the connection: nobody is left to tell.
  pipeline([createReadStream(path), ...steps], () => {});
}

/** Pictures and fonts are packed already. */
const isText = (/** @type {string} */ type) => /charset|svg/.test(type);

/** @param {import('node:http').IncomingMessage} request */
const takesGzip = (request) => /\bgzip\b/.test(String(request.headers['accept-encoding'] ?? ''));

/**
 * The file a request asks for, or undefined when there is none inside the folder.
 *
 * @param {string} dir
 * @param {string} url
 */
function fileFor(dir, url) {
  const name = decoded(url.split(/[?#]/)[0] ?? '/');
  if (name === undefined || name.includes('\0')) return undefined;
  const path = normalize(join(dir, name.endsWith('/') ? `${name}index.html` : name));
  if (!path.startsWith(normalize(dir + sep))) return undefined;
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true ? path : undefined;
}

/** @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return undefined;
  }
}

/**
 * @param {import('node:http').Server} server
 * @param {number} port
 * @param {string} host
 * @param {number} tries
 */
async function listenOnFree(server, port, host, tries) {
  for (let attempt = 0; ; attempt += 1) {
    try {
      await listen(server, port === 0 ? 0 : port + attempt, host);
      break;
    } catch (error) {
      const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
      if (!isTaken || attempt + 1 >= tries) throw error;
    }
  }
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('got no port of our own');
  return address.port;
}

/**
 * @param {import('node:http').Server} server
 * @param {number} port
 * @param {string} host
 * @returns {Promise<void>}
 */
function listen(server, port, host) {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

/**
 * @param {import('node:http').Server} server
 * @returns {Promise<void>}
 */
function stop(server) {
  return new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
}
