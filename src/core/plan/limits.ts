/** What a plan may hold at most; beyond these a file is a mistake or an attack. */
export const LIMITS = {
  fileBytes: 2_000_000,
  nesting: 40,
  yarns: 26,
  pieces: 60,
  blocks: 200,
  picks: 100_000,
  ends: 10_000,
  times: 1_000,
  totalPicks: 1_000_000,
  /** Blocks of one warp once every repeat is laid out; each costs memory, however few its picks. */
  laidBlocks: 20_000,
  length: 200_000,
  name: 120,
  notes: 10_000,
} as const;
