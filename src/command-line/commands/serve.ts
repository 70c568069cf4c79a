/** bowlworth serve: the service, until Ctrl-C. */
import type { Command } from 'commander';

export function serveCommand(program: Command): void {
  program
    .command('serve')
    .description('Run the service; Ctrl-C stops it')
    .option('--json', 'say where it listens as JSON')
    .action(async ({ json }: { json?: boolean }) => {
      const { serve } = await import('../serving.js');
      await serve(json);
    });
}
