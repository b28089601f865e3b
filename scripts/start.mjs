// `npm start`: from a bare clone to the running app. Node's own modules only.
//   npm start               on this machine, port 4173 or the next free one (PORT sets another)
//   npm start -- --host     for other devices of the local network as well
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { ensureDependencies, root, runTool } from './ensure.mjs';
import { serveFolder } from './serve.mjs';

const firstPort = 4173;
const wantsNetwork = process.argv.includes('--host');

await ensureDependencies();
if ((await runTool('vite/bin/vite.js', ['build'])) !== 0) process.exit(1);
const wanted = portWanted();
const server = await serveFolder({
  dir: join(root, 'dist'),
  port: wanted,
  host: wantsNetwork ? '0.0.0.0' : '127.0.0.1',
  tries: 50,
});
console.log(`\nFellmark is at http://localhost:${server.port}/`);
if (wanted !== 0 && server.port !== wanted) {
  // A browser keeps one store for each address, so warps woven at the usual one are not seen here.
  console.log(
    `  Port ${wanted} is taken. This address has a store of its own: other warps, not yours.`,
  );
}
if (wantsNetwork) printNetworkAddresses(server.port);
console.log('Stop it with Ctrl+C.');

function portWanted() {
  const wanted = Number(process.env.PORT ?? firstPort);
  if (Number.isInteger(wanted) && wanted >= 0 && wanted < 65536) return wanted;
  throw new Error(`got PORT=${process.env.PORT}, wanted a number from 0 to 65535`);
}

/** @param {number} port */
function printNetworkAddresses(port) {
  const addresses = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  for (const { address } of addresses.filter((one) => one.family === 'IPv4' && !one.internal)) {
    console.log(`  on the local network: http://${address}:${port}/`);
  }
  console.log(
    '  Browsers allow offline use, installing and durable storage only over https or on\n' +
      '  localhost. Over plain http another device shows the app, but needs this server all the\n' +
      '  time. For weaving put dist/ on any static host that has https.',
  );
}
