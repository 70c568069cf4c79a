/** bowlworth migrate: brings the database up to date, as serve does by itself. */
import type { Command } from 'commander';

export function migrateCommand(program: Command): void {
  program
    .command('migrate')
    .description('Bring the database up to date (serve does it by itself)')
    .option('--json', 'answer as JSON')
    .action(async ({ json }: { json?: boolean }) => {
      const { openDatabase } = await import('../../platform/database/opening.js');
      const { readSettings } = await import('../../platform/settings.js');
      const { schemaSteps } = await import('../../schema.js');
      const { answer, progress } = await import('../terminal.js');
      const options = { steps: schemaSteps, entities: [], progress };
      const database = await openDatabase(readSettings(process.env), options);
      const { migrated } = database;
      await database.close();
      const steps = migrated.length === 0 ? ['Up to date.'] : migrated.map((step) => `ran ${step}`);
      answer({ migrated }, steps, json);
    });
}
