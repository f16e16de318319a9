import { type WordedPattern, worded } from './comment-scan.ts';
import type { Substrate, ToolKind } from './tool-keys.ts';

type KindRow = readonly [pattern: WordedPattern, kind: ToolKind | 'boring-bar'];

const counter = String.raw`(?:\d{3})?(?![A-Z])`;
/** One of `words`, which `|` parts, stands in everything that the pattern matches. */
const row = (words: string, pattern: string, kind: ToolKind | 'boring-bar'): KindRow => [
  worded(words, new RegExp(`(?<![A-Z])(?:${pattern})${counter}`)),
  kind,
];

/** Words that name a kind of tool, the more special first. Matched against upper-case text. */
export const kindWords: readonly KindRow[] = [
  row('TAP', 'TAP ?-?DRILL(?: BIT)?', 'drill'),
  row('SLOT', 'SLOT ?-?DRILL', 'end-mill'),
  row(
    'DRILL|ZENTRIERBOHRER',
    String.raw`(?:CENT(?:ER|RE)|CTR)\.? ?-?DRILL|C(?:OMBINED )?'?DRILL AND C(?:OUNTER)?SINK|ZENTRIERBOHRER`,
    'center-drill',
  ),
  row(
    'SPOT|ANBOHRER',
    'SPOT(?:TING)?[ -]?(?:DRILL|TOOL)|SPOTDRILL|SPOTTER|NC[ -]SPOT|ANBOHRER',
    'spot-drill',
  ),
  row('THR', 'THR(?:EA)?D ?-?MILL(?:ING CUTTER)?|THREADMILL', 'thread-mill'),
  row('GEWINDEBOHRER|TARAUD|MACHO', 'GEWINDEBOHRER|TARAUD|MACHO', 'tap'),
  row(
    'TAP',
    '(?:(?:RIGHT|LEFT) HAND |RH |LH |FORM(?:ING)? |ROLL |SPIRAL (?:POINT|FLUTE) |RIGID )?TAP',
    'tap',
  ),
  row(
    'BALL|BNEM',
    'BALL ?-?(?:NOSE)?[ -]?(?:END ?-?MILL|MILL|EM|CUTTER)|BALL ?-?NOSED?(?: END ?-?MILL)?|BNEM|BALL(?= END|$)',
    'ball-mill',
  ),
  row(
    'BULL|BNE',
    'BULL ?-?(?:NOSE)?[ -]?(?:END ?-?MILL|MILL|EM)|BULL ?-?NOSED?(?: END ?-?MILL)?|BNE',
    'bull-mill',
  ),
  row('CHAMFER', 'CHAMFER(?:ING)? ?-?(?:END ?-?MILL|MILL|TOOL|CUTTER)', 'chamfer-mill'),
  row('FAC|SHELL', 'FACE ?-?MILL|FACING MILL|SHELL ?-?MILL', 'face-mill'),
  row(
    'SLOT|SLITTING|KEY|WOODRUFF',
    'SLOT ?-?MILL|SLITTING SAW|T ?-?SLOT(?: ?CUTTER)?|KEY ?-?(?:SEAT|CUTTER)(?: CUTTER)?|WOODRUFF(?: CUTTER)?|SLOTTING CUTTER',
    'slot-mill',
  ),
  row(
    'SINK|CSK|DOVETAIL|ENGRAV|BIT|FLY|COUNTER',
    `COUNTER ?-?SINK|C'?SINK|CSK|DOVETAIL(?: CUTTER)?|ENGRAV(?:ER|ING (?:TOOL|CUTTER|BIT))|V ?-?BIT|FLY ?-?CUTTER|COUNTER ?-?BORE(?= TOOL)`,
    'other',
  ),
  row(
    'MILL|E/M|E.M.|EM|FRESA|SCHAFTFR',
    String.raw`(?:FLAT |SQUARE |ROUGHING |FINISHING )?END ?-?MILL|ENDMILL|E/M|E\.M\.|(?<=(?:FL|FLT|FLUTES?|CARB|CARBIDE|HSS|COBALT|ROUGH|FINISH|LOC|MM|IN|["\d.]) ?)EM|FRESA PLANA|SCHAFTFR.{0,2}SER`,
    'end-mill',
  ),
  row('REAMER|REIBAHLE', 'REAMER|REIBAHLE', 'reamer'),
  row(
    'DRILL|BROCA|BOHRER|FORET',
    '(?:INSERT |TWIST |SPADE |STUB |JOBBER |CARBIDE |CORE |GUN ?|STEP )?DRILL(?: BIT)?|BROCA|BOHRER|FORET',
    'drill',
  ),
  row('BOR', 'BOR(?:E|ING) ?-?BAR', 'boring-bar'),
  row('BOR', 'BOR(?:E|ING) ?-?HEAD', 'bore'),
  row(
    'GRV|GROOV',
    String.raw`(?:[OI]\.?D\.? ?|FACE )?(?:GROOVE|GROOVING|GRV)(?:ING)?(?: TOOL| INSERT)?`,
    'groove',
  ),
  row('PART|CUT', 'PART(?:ING)?[ -]?OFF(?: TOOL)?|PARTING(?: TOOL| BLADE)|CUT ?-?OFF(?: TOOL)?', 'part-off'),
  row(
    'THREAD',
    String.raw`THREAD(?:ING)? (?:TOOL|INSERT)|[OI]\.?D\.? THREAD(?:ING)?(?: TOOL)?`,
    'thread-turn',
  ),
  row(
    'TURN|O.D|OD',
    String.raw`TURNING (?:TOOL|INSERT)|TURN TOOL|O\.?D\.? (?:ROUGH|FINISH|TURN)(?:ING|ER)?(?: TOOL)?|O\.?D\.? TOOL|(?:ROUGH|FINISH) TURN(?:ING)?(?: TOOL)?`,
    'turn',
  ),
  row('PROBE', 'PROBE', 'probe'),
];

/** Words that name what the edge is made of. */
export const substrateWords: readonly (readonly [WordedPattern, Substrate])[] = [
  [worded('CARB|VHM', /(?<![A-Z])(?:SOLID )?CARB(?:IDE)?(?![A-Z])|(?<![A-Z])VHM(?![A-Z])/), 'carbide'],
  [
    worded(
      'HSS|COBALT|STEEL',
      /(?<![A-Z])HSS(?:[- ]?(?:CO|E|PM)\d{0,2})?(?![A-Z])|(?<![A-Z])COBALT(?![A-Z])|HIGH[ -]SPEED STEEL/,
    ),
    'hss',
  ],
  [worded('CERAMIC', /(?<![A-Z])CERAMIC(?![A-Z])/), 'ceramic'],
  [worded('CBN', /(?<![A-Z])P?CBN(?![A-Z])/), 'cbn'],
  [worded('PCD', /(?<![A-Z])PCD(?![A-Z])/), 'diamond'],
];

/** Names of coatings. */
export const coatingWords = worded(
  'UNCOATED|TIALN|TIN|TICN|ALCRN|TIB2|ZRN|DLC',
  /(?<![A-Z])(UNCOATED|TIALN|ALTIN|TICN|ALCRN|TIB2|ZRN|DLC|TIN)(?![A-Z])/,
);

/** Largest diameter in mm that is believed without asking, by kind; ours, common practice, no source. */
export const largestDiameter_mm: Partial<Record<ToolKind, number>> = {
  'end-mill': 51,
  'ball-mill': 51,
  'bull-mill': 80,
  'chamfer-mill': 51,
  drill: 80,
  'spot-drill': 26,
  'center-drill': 26,
  reamer: 80,
  tap: 76,
  'thread-mill': 51,
  'face-mill': 400,
  'slot-mill': 250,
  'bore-bar': 102,
  bore: 300,
};

/** Words that say that the writer was not sure. */
export const vagueWords = worded(
  'ISH|OR |APPROX|ABOUT|ROUGHLY|?|~',
  /(?<![A-Z])ISH(?![A-Z])|OR (?:SIMILAR|EQUIV\w*|SO)(?![A-Z])|(?<![A-Z])(?:APPROX\w*|ABOUT|ROUGHLY)(?![A-Z])|\?|~/,
);
/** Words that name the hand of cut. */
export const leftHandWords = worded('LEFT|LH', /(?<![A-Z])LEFT[ -]HAND(?![A-Z])|(?<![A-Z])LH(?![A-Z])/);

/** Words of an operation: a comment with one of these is about the part, unless it names a tool number. */
export const operationWords =
  /(?<![A-Z])(?:HOLES?|POCKETS?|PROFILE|CONTOUR|OUTLINE|DEEP|DEPTH|THRU|THROUGH|BOSS|WALLS?|FLOORS?|PASS(?:ES)?|PLCS?|PLACES|BOLT CIRCLE|EDGES?|SURFACE|OP ?\d+|FOR)(?![A-Z])/;
