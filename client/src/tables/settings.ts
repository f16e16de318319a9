/** Every setting of the extension: the manifest and the manual are made from this table. */
export interface SettingRow {
  /** Without the leading `tapeproof.`. */
  name: string;
  type: 'string' | 'integer' | 'number' | 'boolean' | 'object';
  default: unknown;
  /** Markdown, for the settings page and the manual. */
  description: string;
  /** Allowed values, each with its meaning. */
  choices?: readonly { value: string; means: string }[];
  least?: number;
  most?: number;
  /** `resource`: may differ from folder to folder; `window`: one a window; `machine-overridable`: of this computer unless a folder says otherwise. */
  scope: 'resource' | 'window' | 'machine-overridable';
}

export const hintLevels = ['off', 'changes', 'every'] as const;
export type HintLevel = (typeof hintLevels)[number];

export const settings = [
  {
    name: 'hints.level',
    type: 'string',
    default: 'changes',
    description:
      'How much is shown beside the lines of a program. One command steps through the three levels.',
    choices: [
      { value: 'off', means: 'Nothing at all. Hover and problems stay.' },
      {
        value: 'changes',
        means: 'At tool changes, where speed or feed changes, and where a value leaves its window.',
      },
      { value: 'every', means: 'Beside every block that cuts.' },
    ],
    scope: 'resource',
  },
  {
    name: 'units',
    type: 'string',
    default: 'program',
    description: 'How lengths and speeds are shown. Never changes what a program or a sheet means.',
    choices: [
      {
        value: 'program',
        means: 'As the program itself: inch programs show inch, millimetre programs show mm.',
      },
      { value: 'inch', means: 'Always inch, in/min and sfm.' },
      { value: 'mm', means: 'Always mm, mm/min and m/min.' },
    ],
    scope: 'resource',
  },
  {
    name: 'crib',
    type: 'string',
    default: '',
    description:
      'Path of your own tool crib (`crib.json`), used where the folders of a program hold none. Empty: none.',
    scope: 'machine-overridable',
  },
  {
    name: 'findings',
    type: 'object',
    default: {},
    description:
      'Severity by finding code, or `off`: `{ "chip-load-low": "warning" }`. What is off is listed in the review as not checked.',
    choices: [
      { value: 'error', means: 'Would stop the control, break the tool, throw the part or hit something.' },
      { value: 'warning', means: 'Will likely go badly.' },
      { value: 'information', means: 'Worth knowing.' },
      { value: 'hint', means: 'Could be better.' },
      { value: 'off', means: 'Not looked for.' },
    ],
    scope: 'resource',
  },
  {
    name: 'maxProblems',
    type: 'integer',
    default: 100,
    least: 1,
    most: 500,
    description:
      'Most findings sent to the editor for one program, worst first. How many more there are is said once.',
    scope: 'resource',
  },
] as const satisfies readonly SettingRow[];
