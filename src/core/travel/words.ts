/**
 * The words a packed plan has a number for: names of fields and choices of the plan's schema.
 *
 * New words go to the end and none is ever taken out: a link made today must still open in ten
 * years. A word that is missing here is carried letter by letter.
 */
export const WORDS: readonly string[] = [
  ...['kind', 'of', 'yarn', 'extent', 'picks', 'ends', 'solid', 'length', 'loomLength'],
  ...['alternation', 'cycle', 'turns', 'path', 'round', 'opens', 'closes', 'repeat', 'times'],
  ...['mirror', 'centre', 'shared', 'doubled', 'name', 'there-and-back', 'parity', 'even', 'odd'],
  ...['any', 'share', 'from', 'practice', 'source', 'typed', 'washed', 'pieces', 'spread'],
  ...['letter', 'colour', 'count', 'system', 'number', 'plies', 'fibre', 'onHand', 'shelf'],
  ...['pickSpacing', 'resting', 'starts', 'mode', 'float', 'catch', 'every', 'cut', 'left'],
  ...['right', 'beginning', 'ending', 'hemstitch', 'fringe', 'twisted', 'hem', 'zigzag', 'plain'],
  ...['washedAllowance', 'startShed', 'up', 'down', 'startSide', 'wish', 'state', 'loom', 'off'],
  ...['finished', 'weft', 'format', 'fellmark-plan', 'version', 'notes', 'units', 'inch'],
  ...['metric', 'yarns', 'warp', 'order', 'firstEnd', 'slot', 'hole', 'viewpoint', 'front'],
  ...['back', 'floatingSelvedges', 'weaving', 'hand', 'workingSide', 'carryLimit', 'tailWidths'],
  ...['picksBeforeStitching', 'stitchGroup', 'newYarnComesUp', 'under', 'over', 'outerFringes'],
  ...['own-warp', 'from-waste', 'cuttingAllowance', 'allowances', 'drawIn', 'relax'],
  ...['shrinkWidth', 'shrinkLength', 'warpTaken', 'weftExtra', 'twist', 'rigid-heddle', 'shaft'],
  ...['dents', 'per', '10cm', 'made', 'endsPerDent', 'weavingWidth', 'frontTieOn', 'backWaste'],
  ...['weavingDepth', 'cotton', 'cottolin', 'linen', 'wool', 'silk', 'hemp', 'other'],
  ...['cottonCount', 'linenLea', 'worsted', 'woollenRun', 'woollenCut', 'tex', 'dtex', 'denier'],
  ...['ydPerLb', 'mPer100g', 'mPerKg', 'free', 'warps', 'match', 'near'],
];
