import { isMainThread } from 'node:worker_threads';
import { readArguments, UsageError } from './arguments.ts';
import { serveChecks } from './check-pool.ts';
import { EXIT } from './command.ts';
import { check } from './commands/check.ts';
import { commands } from './commands/index.ts';
import { commandHelp, help } from './help.ts';
import { say, writeResult } from './output.ts';
import { VERSION } from './version.ts';

async function main(argv: readonly string[]): Promise<number> {
  const [name, ...rest] = argv;
  if (name === undefined) {
    writeResult(help());
    return EXIT.usage;
  }
  if (name === '--help' || name === '-h' || name === 'help') {
    writeResult(help());
    return EXIT.done;
  }
  if (name === '--version') {
    writeResult(`${VERSION}\n`);
    return EXIT.done;
  }
  const command = commands.find(c => c.name === name);
  if (!command)
    throw new UsageError(
      `there is no command '${name}'; the commands are ${commands.map(c => c.name).join(', ')}`,
    );
  if (rest.includes('--help') || rest.includes('-h')) {
    writeResult(commandHelp(command));
    return EXIT.done;
  }
  return command.run(readArguments(rest, command.options));
}

if (!isMainThread) serveChecks(check.options);
else run();

function run(): void {
  process.on('SIGINT', () => process.exit(EXIT.interrupted));
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  main(process.argv.slice(2)).then(
    code => {
      process.exitCode = code;
    },
    error => {
      if (error instanceof UsageError) say(`tapeproof: ${error.message}`);
      else
        say(
          `tapeproof: something went wrong inside: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
        );
      process.exitCode = EXIT.usage;
    },
  );
}
