export type SheetSeverity = 'error' | 'warning' | 'information';

/** Something wrong in a setup sheet or crib, at its place (UTF-16 offsets). What is right beside it still counts. */
export type SheetProblem = {
  code: SheetProblemCode;
  severity: SheetSeverity;
  message: string;
  offset: number;
  length: number;
  /** A value that would be right here (nearest key, nearest enum value); for a code action. */
  suggestion?: string;
};

/** Every code a sheet or crib can get, with its severity and what it means. */
export const sheetProblems = {
  'setup-json': { severity: 'error', title: 'The text is not JSON here' },
  'setup-not-object': {
    severity: 'error',
    title: 'The file is not a setup sheet: it must be an object in braces',
  },
  'setup-key-unknown': { severity: 'warning', title: 'Unknown key' },
  'setup-key-twice': { severity: 'warning', title: 'The key stands twice; the last one counts' },
  'setup-type': { severity: 'error', title: 'Wrong type of value' },
  'setup-value': { severity: 'error', title: 'Not one of the values known here' },
  'setup-range': { severity: 'error', title: 'The value is out of range' },
  'setup-unit': { severity: 'error', title: 'The unit is missing or not known here' },
  'setup-units-missing': {
    severity: 'warning',
    title: 'Bare numbers, and the sheet does not name its units',
  },
  'setup-conflict': { severity: 'error', title: 'Two keys contradict each other' },
  'setup-path': { severity: 'error', title: 'The path leaves the folder or has the wrong ending' },
  'setup-reference': { severity: 'warning', title: 'The name refers to nothing' },
  'setup-too-many': { severity: 'warning', title: 'More problems than are listed' },
} as const satisfies Record<string, { severity: SheetSeverity; title: string }>;

export type SheetProblemCode = keyof typeof sheetProblems;
