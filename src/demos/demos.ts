/** The demo warps, each loaded only when it is looked at. Their data is invented. */
export const DEMOS = [
  {
    id: 'moss-and-chalk',
    load: async (): Promise<unknown> => (await import('./moss-and-chalk.json')).default,
  },
  {
    id: 'ink-oat-ochre',
    load: async (): Promise<unknown> => (await import('./ink-oat-ochre.json')).default,
  },
] as const;

export type Demo = (typeof DEMOS)[number];
