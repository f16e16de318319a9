import { homedir } from 'node:os';
import path from 'node:path';
import { runCompiled } from '../start/compiled.ts';
import { beginReading } from './early-read.ts';

/** Set by the build: changes with the content of the body. */
declare const BODY_STAMP: string;

const BODY = path.join(__dirname, 'cli.body.cjs');
/** What these compile is worth keeping: the others need little of it. */
const KEEPING = ['check', 'review'];

const [command, ...rest] = process.argv.slice(2);
if (KEEPING.includes(command)) beginReading(rest);
const folder = cacheFolder();
if (folder === undefined) require(BODY);
else runCompiled(BODY, folder, BODY_STAMP, { keep: KEEPING.includes(command), quiet: true });

/** Where this computer keeps what can be made again, for this person; `TAPEPROOF_CACHE` names another folder, or `off`. */
function cacheFolder(): string | undefined {
  const { TAPEPROOF_CACHE, XDG_CACHE_HOME, LOCALAPPDATA } = process.env;
  if (TAPEPROOF_CACHE === 'off') return undefined;
  if (TAPEPROOF_CACHE) return path.resolve(TAPEPROOF_CACHE);
  const usual: Partial<Record<NodeJS.Platform, string | undefined>> = {
    win32: LOCALAPPDATA,
    darwin: path.join(homedir(), 'Library/Caches'),
  };
  const base =
    process.platform in usual ? usual[process.platform] : XDG_CACHE_HOME || path.join(homedir(), '.cache');
  return base && path.isAbsolute(base) ? path.join(base, 'tapeproof') : undefined;
}
