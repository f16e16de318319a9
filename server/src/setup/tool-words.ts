import type { Substrate, ToolKind } from './tool-keys.ts';

type KindRow = readonly [pattern: RegExp, kind: ToolKind | 'boring-bar'];

const counter = String.raw`(?:\d{3})?(?![A-Z])`;
const row = (pattern: string, kind: ToolKind | 'boring-bar'): KindRow => [
  new RegExp(`(?<![A-Z])(?:${pattern})${counter}`),
  kind,
];

/** Words that name a kind of tool, the more special first. Matched against upper-case text. */
export const kindWords: readonly KindRow[] = [
  row('TAP ?-?DRILL(?: BIT)?', 'drill'),
  row('SLOT ?-?DRILL', 'end-mill'),
  row(
    String.raw`(?:CENT(?:ER|RE)|CTR)\.? ?-?DRILL|C(?:OMBINED )?'?DRILL AND C(?:OUNTER)?SINK|ZENTRIERBOHRER`,
    'center-drill',
  ),
  row('SPOT(?:TING)?[ -]?(?:DRILL|TOOL)|SPOTDRILL|SPOTTER|NC[ -]SPOT|ANBOHRER', 'spot-drill'),
  row('THR(?:EA)?D ?-?MILL(?:ING CUTTER)?|THREADMILL', 'thread-mill'),
  row('GEWINDEBOHRER|TARAUD|MACHO', 'tap'),
  row('(?:(?:RIGHT|LEFT) HAND |RH |LH |FORM(?:ING)? |ROLL |SPIRAL (?:POINT|FLUTE) |RIGID )?TAP', 'tap'),
  row(
    'BALL ?-?(?:NOSE)?[ -]?(?:END ?-?MILL|MILL|EM|CUTTER)|BALL ?-?NOSED?(?: END ?-?MILL)?|BNEM|BALL(?= END|$)',
    'ball-mill',
  ),
  row('BULL ?-?(?:NOSE)?[ -]?(?:END ?-?MILL|MILL|EM)|BULL ?-?NOSED?(?: END ?-?MILL)?|BNE', 'bull-mill'),
  row('CHAMFER(?:ING)? ?-?(?:END ?-?MILL|MILL|TOOL|CUTTER)', 'chamfer-mill'),
  row('FACE ?-?MILL|FACING MILL|SHELL ?-?MILL', 'face-mill'),
  row(
    'SLOT ?-?MILL|SLITTING SAW|T ?-?SLOT(?: ?CUTTER)?|KEY ?-?(?:SEAT|CUTTER)(?: CUTTER)?|WOODRUFF(?: CUTTER)?|SLOTTING CUTTER',
    'slot-mill',
  ),
  row(
    `COUNTER ?-?SINK|C'?SINK|CSK|DOVETAIL(?: CUTTER)?|ENGRAV(?:ER|ING (?:TOOL|CUTTER|BIT))|V ?-?BIT|FLY ?-?CUTTER|COUNTER ?-?BORE(?= TOOL)`,
    'other',
  ),
  row(
    String.raw`(?:FLAT |SQUARE |ROUGHING |FINISHING )?END ?-?MILL|ENDMILL|E/M|E\.M\.|(?<=(?:FL|FLT|FLUTES?|CARB|CARBIDE|HSS|COBALT|ROUGH|FINISH|LOC|MM|IN|["\d.]) ?)EM|FRESA PLANA|SCHAFTFR.{0,2}SER`,
    'end-mill',
  ),
  row('REAMER|REIBAHLE', 'reamer'),
  row(
    '(?:INSERT |TWIST |SPADE |STUB |JOBBER |CARBIDE |CORE |GUN ?|STEP )?DRILL(?: BIT)?|BROCA|BOHRER|FORET',
    'drill',
  ),
  row('BOR(?:E|ING) ?-?BAR', 'boring-bar'),
  row('BOR(?:E|ING) ?-?HEAD', 'bore'),
  row(String.raw`(?:[OI]\.?D\.? ?|FACE )?(?:GROOVE|GROOVING|GRV)(?:ING)?(?: TOOL| INSERT)?`, 'groove'),
  row('PART(?:ING)?[ -]?OFF(?: TOOL)?|PARTING(?: TOOL| BLADE)|CUT ?-?OFF(?: TOOL)?', 'part-off'),
  row(String.raw`THREAD(?:ING)? (?:TOOL|INSERT)|[OI]\.?D\.? THREAD(?:ING)?(?: TOOL)?`, 'thread-turn'),
  row(
    String.raw`TURNING (?:TOOL|INSERT)|TURN TOOL|O\.?D\.? (?:ROUGH|FINISH|TURN)(?:ING|ER)?(?: TOOL)?|O\.?D\.? TOOL|(?:ROUGH|FINISH) TURN(?:ING)?(?: TOOL)?`,
    'turn',
  ),
  row('PROBE', 'probe'),
];

/** Words that name what the edge is made of. */
export const substrateWords: readonly (readonly [RegExp, Substrate])[] = [
  [/(?<![A-Z])(?:SOLID )?CARB(?:IDE)?(?![A-Z])|(?<![A-Z])VHM(?![A-Z])/, 'carbide'],
  [/(?<![A-Z])HSS(?:[- ]?(?:CO|E|PM)\d{0,2})?(?![A-Z])|(?<![A-Z])COBALT(?![A-Z])|HIGH[ -]SPEED STEEL/, 'hss'],
  [/(?<![A-Z])CERAMIC(?![A-Z])/, 'ceramic'],
  [/(?<![A-Z])P?CBN(?![A-Z])/, 'cbn'],
  [/(?<![A-Z])PCD(?![A-Z])/, 'diamond'],
];

/** Names of coatings. */
export const coatingWords = /(?<![A-Z])(UNCOATED|TIALN|ALTIN|TICN|ALCRN|TIB2|ZRN|DLC|TIN)(?![A-Z])/;

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
export const vagueWords =
  /(?<![A-Z])ISH(?![A-Z])|OR (?:SIMILAR|EQUIV\w*|SO)(?![A-Z])|(?<![A-Z])(?:APPROX\w*|ABOUT|ROUGHLY)(?![A-Z])|\?|~/;

/** Words of an operation: a comment with one of these is about the part, unless it names a tool number. */
export const operationWords =
  /(?<![A-Z])(?:HOLES?|POCKETS?|PROFILE|CONTOUR|OUTLINE|DEEP|DEPTH|THRU|THROUGH|BOSS|WALLS?|FLOORS?|PASS(?:ES)?|PLCS?|PLACES|BOLT CIRCLE|EDGES?|SURFACE|OP ?\d+|FOR)(?![A-Z])/;
