/** bowlworth export: a part of the catalogue as CSV, as import reads it. */
import { writeFile } from 'node:fs/promises';
import { Argument, type Command } from 'commander';
import type { ExportKind } from '../export/lines.js';

const kinds = ['suppliers', 'products', 'services', 'clients', 'formulas'];

interface Words {
  readonly out?: string;
  readonly studio?: string;
  readonly json?: boolean;
}

export function exportCommand(program: Command): void {
  program
    .command('export')
    .description('Write a part of the catalogue as CSV, in the columns that import reads')
    .addArgument(new Argument('<kind>', 'what to write').choices(kinds))
    .option('--out <file>', 'into this file instead of standard output')
    .option('--studio <name>', 'whose, where there are several studios')
    .option('--json', 'as JSON instead of CSV')
    .action(async (kind: ExportKind, words: Words) => {
      const { chooseStudio, withService } = await import('../inside.js');
      const { exportTable } = await import('../export/lines.js');
      const { csvOf, objectsOf } = await import('../export/text.js');
      const { BulkService } = await import('../../studio/catalogue/bulk.service.js');
      const table = await withService(async (service) => {
        const { id } = await chooseStudio(service, words.studio);
        return exportTable(service.app.get(BulkService), id, kind);
      });
      const text = words.json
        ? `${JSON.stringify(objectsOf(table), undefined, 2)}\n`
        : csvOf(table);
      if (words.out === undefined) process.stdout.write(text);
      else await writeFile(words.out, text, { mode: 0o600 });
    });
}
