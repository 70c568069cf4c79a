/** bowlworth backup: one consistent copy of everything, in one file, while the service runs. */
import type { Command } from 'commander';

export function backupCommand(program: Command): void {
  program
    .command('backup')
    .description('Copy everything into one file; the service may go on')
    .argument('<file>', 'file to write, such as bowlworth.backup.gz')
    .option('--json', 'answer as JSON')
    .action(async (file: string, { json }: { json?: boolean }) => {
      const { SystemClock } = await import('../../platform/clock.js');
      const { backUp } = await import('../../platform/database/dump.js');
      const { openDatabase } = await import('../../platform/database/opening.js');
      const { readSettings } = await import('../../platform/settings.js');
      const { schemaSteps } = await import('../../schema.js');
      const { answer, progress } = await import('../terminal.js');
      const options = { steps: schemaSteps, entities: [], progress };
      const database = await openDatabase(readSettings(process.env), options);
      try {
        progress('Copying …');
        const count = await backUp(database.target, file, new SystemClock().now());
        answer({ file, ...count }, [`${file}: ${count.studios} studios, ${count.rows} rows`], json);
      } finally {
        await database.close();
      }
    });
}
