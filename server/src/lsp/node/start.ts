import path from 'node:path';
import { runCompiled } from '../../start/compiled.ts';

/** Set by the build: changes with the content of the server's body. */
declare const BODY_STAMP: string;

const BODY = 'server.body.node.js';
const ARGUMENT = '--compiled=';

// The server's body, from what was compiled at an earlier start where the extension names a folder for that.
const folder = process.argv.find(argument => argument.startsWith(ARGUMENT))?.slice(ARGUMENT.length);
if (folder) runCompiled(path.join(__dirname, BODY), folder, BODY_STAMP);
else require(path.join(__dirname, BODY));
