/** bowlworth restore: puts a backup into an empty database. */
import type { Command } from 'commander';

export function restoreCommand(program: Command): void {
  program
    .command('restore')
    .description('Put a backup into an empty database')
    .argument('<file>', 'a file made by bowlworth backup')
    .option('--json', 'answer as JSON')
    .action(async (file: string, { json }: { json?: boolean }) => {
      const { restore, stepsOfCopy } = await import('../../platform/database/dump.js');
      const { openDatabase } = await import('../../platform/database/opening.js');
      const { readSettings } = await import('../../platform/settings.js');
      const { schemaSteps } = await import('../../schema.js');
      const { answer, progress } = await import('../terminal.js');
      const known = await stepsOfCopy(file);
      const strange = known.find((name) => !schemaSteps.some((step) => step.name === name));
      if (strange !== undefined) {
        throw new Error(`This backup was made by a newer Bowlworth (${strange}). Use that one.`);
      }
      const settings = readSettings(process.env);
      // the rows are of the schema they were copied from; what came later runs over them
      const steps = schemaSteps.filter((step) => known.includes(step.name));
      const before = await openDatabase(settings, { steps, entities: [], progress });
      try {
        progress('Restoring …');
        const count = await restore(before.target, file);
        const after = await openDatabase(settings, { steps: schemaSteps, entities: [], progress });
        await after.close();
        answer(
          { file, ...count },
          [`${count.studios} studios, ${count.rows} rows. Check them with: bowlworth audit`],
          json,
        );
      } finally {
        await before.close();
      }
    });
}
