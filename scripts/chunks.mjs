// Which code comes in one file: what is opened together. The first group that matches a module takes it,
// with all it needs that no group before it has: so what rooms share stands before the rooms.

/** The rescue page must not hang on a file it shares with the app; words of a language stay apart. */
const stayApart = /rescue(\.html|\/)|fellmark:catalogues\//;

/**
 * @param {string} name
 * @param {RegExp} test paths in the project; a library by its name
 * @returns {{ name: string, test: (id: string) => boolean }}
 */
const group = (name, test) => ({ name, test: (id) => !stayApart.test(id) && test.test(id) });

/**
 * The same, only of what at least two files ask for that are fetched when wanted.
 *
 * @param {string} name
 * @param {RegExp} test
 */
const shared = (name, test) => ({ ...group(name, test), minShareCount: 2 });

/** Parts with a colour or a picture of cloth in them: they need more than a field or a pad. */
const coloured = 'photoColour|colourPick|stretchPicture|cloth|piecePicture|yarnForm|yarnDoor';

const files = [
  // All that the first screen needs: cut into many it compresses worse.
  { ...group('bench', /./), tags: /** @type {'$initial'[]} */ (['$initial']) },
  // The first screen of a first visit: in thirty files it would take as many ways to the host.
  group('warps', /\/ui\/(cards\.ts|screens\/warps\/warpsScreen\.tsx)/),
  group('mend', /\/store\/mend(Rooms)?\.ts/),
  group('demos', /\/demos\/.*\.json/),
  group(
    'after',
    /\/ui\/(afterStart|keepingFold|device\/updates|keeping\/snapshots)\.ts|\/parts\/(lossBar|troubleHelp)/,
  ),
  // The cloth of a start waits for it: nothing else belongs here.
  group('painter', /\/parts\/cloth\/painter\.ts|\/weave\/tapePaint/),
  // What all rooms share: fields, pads and sheets, the check of a plan, what is learnt, left and needed.
  shared(
    'kit',
    new RegExp(
      [
        '/core/plan/(checkPlan|shelf|draftShape|sureness|alike|pieceLengths|warping/(list|places))\\.ts',
        '/core/(measure/(?!colour)|learn/|planner/(sheet|newPlan|wishesMet)|bench/(left|standing)|journal/photo)',
        '/ui/(shelf|learning|draft|problemWords|opening|standing|clothReading|mass|percent)\\.ts',
        '/ui/screens/(journal/words|plan/missWords)',
        `/ui/parts/(?!${coloured})[^/]+$`,
        '\\.css$',
      ].join('|'),
    ),
  ),
  // What stands beside the cloth at the bench: sounds and words, cards, the bar for weaving by eye.
  group(
    'beside',
    /\/ui\/hearing\/|\/weave\/(dueCard|byEye\/byEyeBar|left\/leftLine|settings\/benchSettings|placeSheet)\.tsx|\/measure\/(cutOffCard|fellWidthForm)/,
  ),
  { ...group('woven', /\/core\/bench\/(endings|byEye)\//), minShareCount: 3 },
  shared(
    'yarn',
    /\/culori\/|\/measure\/colour|\/ui\/(givenNames|planning)\.ts|\/plan\/(motif|listEdits)\.ts|\/planner\/(nextYarn|countedPer|forShelf)|\/parts\/(yarnForm|yarnDoor|colourPick|photoColour)|\/device\/photo/,
  ),
  shared(
    'cloth',
    /\/core\/planner\/(?!motif)|\/ui\/parts\/(viewer\/|[^/]+$)|\/screens\/plan\/(?!motifIntoPlan)/,
  ),
  group('travel', /\/core\/travel|\/uqr\/|\/parts\/share|\/file\/backupFile|\/ui\/travelling/),
  shared('slots', /\/core\/plan\/warping|\/screens\/warping\/(stepWords|words)/),
  // And the rooms.
  group('loom', /\/screens\/(weave|words)\/|\/bench\/endingsNow/),
  group('books', /\/screens\/(measure|journal)\/(?!printPages)|\/ui\/photos/),
  group('motifs', /\/screens\/(motifs|against|stretch)\/|\/plan\/motifIntoPlan/),
  group('plan', /\/screens\/plan\//),
  group(
    'keep',
    /\/screens\/keep\/|\/keeping\/(comingIn|removing)|\/store\/memory|\/warps\/removeSheet/,
  ),
  group('begin', /\/screens\/warps\/|\/ui\/arriving|\/parts\/arrival/),
  group('yarns', /\/screens\/yarns/),
  group('paper', /\/screens\/paper|\/ui\/printing/),
  group('warping', /\/screens\/warping/),
];

/** How the build joins modules to files: for `output` of the bundler. */
export const chunks = {
  // What is joined with the script of the page keeps the name it has among the groups.
  entryFileNames: (/** @type {{ name: string }} */ { name }) =>
    `assets/${name === 'index' ? 'bench' : name}-[hash].js`,
  codeSplitting: { groups: files },
};
