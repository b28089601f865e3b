// Writes public/plan.schema.json from src/core/plan/schema.ts. Run it after changing the plan format.
import { writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { createServer } from 'vite';
import { planJsonSchema } from './planJsonSchema.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const vite = await createServer({
  root,
  configFile: false,
  appType: 'custom',
  logLevel: 'error',
  server: { middlewareMode: true, watch: null },
});
try {
  const { planSchema, planParts } = await vite.ssrLoadModule('/src/core/plan/schema.ts');
  const file = new URL('../public/plan.schema.json', import.meta.url);
  await writeFile(file, planJsonSchema(planSchema, planParts));
} finally {
  await vite.close();
}
