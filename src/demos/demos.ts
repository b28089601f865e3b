/** The demo warps, each loaded only when it is looked at. Their data is invented. */
export interface Demo {
  readonly name: string;
  readonly words: string;
  readonly load: () => Promise<unknown>;
}

export const DEMOS: readonly Demo[] = [
  {
    name: 'Two hand towels in moss and chalk',
    words:
      'Inches, rigid heddle: hemstitched fringe, blocks by length, two-and-two alternations, mirrored.',
    load: async () => (await import('./moss-and-chalk.json')).default,
  },
  {
    name: 'Two table runners in ink, oat and ochre',
    words:
      'Centimetres, shafts: turned hems in their own yarn, three colours there and back, one and one.',
    load: async () => (await import('./ink-oat-ochre.json')).default,
  },
];
