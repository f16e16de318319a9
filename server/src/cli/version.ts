import packageJson from '../../package.json' with { type: 'json' };

/** Version of the command line, as its package says. */
export const VERSION: string = packageJson.version;
