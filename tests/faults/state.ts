import type { Fault } from './fault.ts';

const f = (name: string, job: string, from: string, to: string, ...codes: string[]): Fault => ({
  family: 'state',
  name,
  job,
  from,
  to,
  codes,
});

/** What is left on, off, or over from before. */
export const STATE_FAULTS: readonly Fault[] = [
  f(
    'length offset missing, inch',
    'bracket',
    'G43 H2 Z1. M8',
    'Z1. M8',
    'length-offset-missing',
    'length-offset-foreign',
  ),
  f(
    'length offset missing, mm',
    'valve',
    'G43 H3 Z25. M8',
    'Z25. M8',
    'length-offset-missing',
    'length-offset-foreign',
  ),
  f('length offset of another tool', 'bracket', 'G43 H3', 'G43 H2', 'length-offset-foreign'),
  f('length offset of another tool, mm', 'flange', 'G43 H6', 'G43 H1', 'length-offset-foreign'),
  f('length offset against the rule', 'manifold', 'G43 H4', 'G43 H24', 'length-offset-foreign'),
  f(
    'length offset cancelled before the cut',
    'spacer',
    'Z-2.\nG1 X68.',
    'G49 Z-2.\nG1 X68.',
    'length-offset-missing',
  ),
  f('radius offset of another tool', 'bracket', 'G41 D2', 'G41 D3', 'radius-offset-foreign'),
  f('no radius offset', 'bracket', 'G41 D2', 'G41', 'compensation-without-offset'),
  {
    ...f(
      'compensation never cancelled',
      'bracket',
      'G40 X-.5',
      'X-.5',
      'compensation-left-on',
      'compensation-state',
    ),
    near: 'G41 D2',
  },
  {
    ...f(
      'G90 missing after the reference return',
      'bracket',
      'G90\n(HOLES)',
      '(HOLES)',
      'incremental-left-on',
    ),
    near: 'G54 G0 X.5 Y.5',
  },
  { ...f('G90 missing, mm', 'valve', 'N310 G90\n', '', 'incremental-left-on'), near: 'N330 G54' },
  {
    ...f(
      'feed per revolution left on after tapping',
      'spacer',
      '(FACE)\nT1 M6',
      '(FACE)\nG95\nT1 M6',
      'feed-mode-left-on',
    ),
    near: 'G1 X92. F330.',
  },
  {
    ...f(
      'feed per minute left on at a lathe',
      'stud',
      'G1 Z-20. F0.15\n',
      'G98 G1 Z-20. F0.15\n',
      'feed-mode-left-on',
    ),
  },
  {
    ...f(
      'feed left over from the tap',
      'bracket',
      'G1 Z-.12 F40.\nX-.08 Y.25 F60.',
      'G1 Z-.06\nX-.08 Y.25',
      'feed-inherited',
    ),
  },
  { ...f('speed left over', 'bracket', 'S6000 M3', 'M3', 'speed-inherited') },
  {
    ...f(
      'spindle never started again',
      'valve',
      'S900 M3',
      'S900',
      'spindle-stopped',
      'spindle-not-restarted',
    ),
    near: 'G98 G83',
  },
  {
    ...f(
      'spindle stopped before the cut',
      'bracket',
      'Z.1\nG1 Z-.25',
      'M5\nZ.1\nG1 Z-.25',
      'spindle-stopped',
    ),
  },
  { ...f('speed zero', 'spacer', 'S700 M3', 'S0 M3', 'spindle-stopped'), near: 'G1 X92.' },
  {
    ...f('spindle started without a speed', 'valve', 'S2120 M3', 'M3', 'spindle-without-speed'),
    near: 'N60 G1',
  },
  { ...f('spindle backwards with an end mill', 'spacer', 'S2200 M3', 'S2200 M4', 'spindle-direction-wrong') },
  { ...f('spindle backwards with a drill', 'valve', 'S900 M3', 'S900 M4', 'spindle-direction-wrong') },
  { ...f('spindle backwards with a tap', 'manifold', 'S320 M3', 'S320 M4', 'spindle-direction-wrong') },
  { ...f('T word lost', 'bracket', 'N30 T3 M6', 'N30 M6', 'tool-change-same-tool') },
  { ...f('wrong tool number', 'valve', 'N200 T2 M6', 'N200 T12 M6', 'tool-not-in-sheet') },
  {
    ...f('tool against the comment', 'valve', '(T1 12 MM END MILL', '(T1 16 MM END MILL', 'tool-contradicts'),
    near: 'N20 T1 M6',
  },
  {
    ...f(
      'cycle still on at a place to mill',
      'flange',
      'N160 G80\nN170 G0 Z25. M9',
      'N170 X20. Y0. M9',
      'cycle-left-on',
    ),
  },
  {
    ...f('cycle on over the tool change', 'bracket', 'X.5\nG80\nG0 Z1. M9', 'X.5\nM9', 'cycle-left-on'),
    near: 'G99 G83',
  },
  {
    ...f(
      'reference return through the work',
      'valve',
      'N180 G91 G28 Z0.',
      'N180 G28 Z0.',
      'reference-through-work',
    ),
  },
  f('units not stated', 'valve', 'N10 G21 G17', 'N10 G17', 'units-not-stated'),
  {
    ...f('coolant forgotten, aluminium', 'bracket', 'G43 H2 Z1. M8', 'G43 H2 Z1.', 'coolant-off-gummy'),
    near: 'G1 Z-.25',
  },
  {
    ...f(
      'coolant forgotten at a drill',
      'flange',
      'N230 G43 H2 Z25. M8',
      'N230 G43 H2 Z25.',
      'coolant-forgotten',
    ),
  },
  { ...f('speed limit missing', 'bushing', 'N30 G50 S2500\n', '', 'css-without-clamp', 'chuck-speed-over') },
  { ...f('lathe offset 00', 'stud', 'T0404', 'T0400', 'turret-offset-missing'), nth: 2 },
  { ...f('lathe offset of another tool', 'stud', 'T0505', 'T0501', 'turret-offset-missing'), nth: 2 },
  {
    ...f(
      'constant surface speed in a thread',
      'stud',
      'N360 G97 S1000 M3',
      'N360 G96 S80 M3',
      'css-in-thread',
    ),
  },
  {
    ...f(
      'constant surface speed on the centre',
      'cover',
      'N170 G97 S1300 M3',
      'N170 G96 S300 M3',
      'css-on-centre',
    ),
  },
  {
    ...f('plane left on', 'valve', 'N40 G43 H1', 'N40 G18 G43 H1', 'arc-misses-end', 'plane-left-on'),
    near: 'N70 G3',
  },
  { ...f('M6 lost', 'bracket', 'N30 T3 M6', 'N30 T3', 'tool-never-changed', 'length-offset-foreign') },
  { ...f('M6 lost, mm', 'flange', 'N120 T6 M6', 'N120 T6', 'tool-never-changed', 'length-offset-foreign') },
  { ...f('another work offset at one tool', 'bracket', 'S4200 M3\nG54', 'S4200 M3\nG55', 'work-offset-odd') },
  { ...f('another work offset, mm', 'valve', 'N330 G54', 'N330 G55', 'work-offset-odd') },
  {
    ...f(
      'spindle backwards at a lathe',
      'stud',
      'N300 G97 S900 M3',
      'N300 G97 S900 M4',
      'spindle-direction-wrong',
    ),
  },
  {
    ...f(
      'spindle of the first tool never started, with subprograms',
      'flange',
      'S950 M3',
      'S950',
      'spindle-stopped',
      'spindle-not-restarted',
    ),
    near: 'N240 G98',
  },
  {
    ...f(
      'coolant forgotten, one tool of steel work',
      'manifold',
      'G43 H5 Z1. M8',
      'G43 H5 Z1.',
      'coolant-forgotten',
      'coolant-off-gummy',
    ),
  },
  {
    ...f(
      'speed limit over the chuck, both tools',
      'bushing',
      'N190 G50 S2500',
      'N190 G50 S6000',
      'chuck-speed-over',
    ),
  },
  {
    ...f(
      'constant speed where surface speed was meant',
      'cover',
      'N250 G96 S800 M3',
      'N250 G97 S80 M3',
      'surface-speed-low',
      'chip-load-high',
    ),
  },
];
