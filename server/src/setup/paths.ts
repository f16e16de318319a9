/** Endings that a program named by a setup sheet may have. */
export const programEndings = [
  '.nc',
  '.ngc',
  '.tap',
  '.cnc',
  '.eia',
  '.mpf',
  '.min',
  '.iso',
  '.gcode',
  '.txt',
] as const;
/** Endings of a shop's record. */
export const recordEndings = ['.jsonl'] as const;

const reserved = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/**
 * Whether a path written in a sheet or crib is relative, stays inside its folder and ends rightly; the path with forward
 * slashes, or why not. Looks at the text alone: that no part of it is a link is for the one who opens it to check.
 */
export function insideFolder(path: string, endings: readonly string[]): { path: string } | { why: string } {
  const slashed = path.trim().replaceAll('\\', '/');
  if (slashed === '' || slashed.length > 400) return { why: 'a path of 1 to 400 characters is needed.' };
  if (hasControl(slashed)) return { why: 'the path holds a control character.' };
  if (slashed.startsWith('/') || slashed.startsWith('~') || slashed.includes(':'))
    return { why: 'the path must be relative to this folder.' };
  const parts = slashed.split('/').filter(part => part !== '' && part !== '.');
  if (parts.includes('..')) return { why: 'the path must stay inside this folder.' };
  if (parts.some(part => reserved.test(part) || /^~|[. ]$/.test(part)))
    return { why: 'the path is not a plain file name.' };
  const name = parts.at(-1)?.toLowerCase() ?? '';
  if (!endings.some(ending => name.length > ending.length && name.endsWith(ending)))
    return { why: `the file must end in ${endings.join(', ')}.` };
  return { path: parts.join('/') };
}

function hasControl(text: string): boolean {
  return [...text].some(character => character < ' ' || character === '\u007f');
}
