import { say } from './commands/command.ts';
import { serverCommands } from './commands/index.ts';
import type { Feature } from './feature.ts';
import { guard } from './guard.ts';
import { type Answer, type CommandParams, request } from './protocol.ts';

/** The commands of the extension, each a request of its own. */
export const commandFeature: Feature = {
  name: 'commands',
  capabilities: {},
  register(server) {
    const failed = say('This did not work; the reason stands in the output "Tapeproof".', 'error');
    for (const command of serverCommands) {
      server.connection.onRequest(
        request.command(command.name),
        guard<CommandParams, Answer | Answer[]>(server.connection, command.name, failed, async params => {
          if ('runFile' in command) return command.runFile(server, params);
          const job = await server.jobs.job(params.uri);
          if (!job) return say('Open the program first.');
          if (command.needsFolder && params.uri.startsWith('untitled:'))
            return say('Save the program first: its setup sheet lies beside it.');
          return command.run({ server, params, job, line: params.position?.line ?? 0 });
        }),
      );
    }
  },
};
