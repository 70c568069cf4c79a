/** bowlworth export: catalogue, deliveries and uses as CSV, as import reads it; the ledger. */
import { Argument, type Command } from 'commander';
import type { Service } from '../../service.js';
import type { ExportKind } from '../export/lines.js';

const kinds = [
  ...['suppliers', 'products', 'services', 'clients', 'formulas'],
  ...['deliveries', 'usage', 'movements'],
];

interface Words {
  readonly out?: string;
  readonly studio?: string;
  readonly json?: boolean;
}

export function exportCommand(program: Command): void {
  program
    .command('export')
    .description('Write CSV in the columns that import reads, or all movements of the ledger')
    .addArgument(new Argument('<kind>', 'what to write').choices(kinds))
    .option('--out <file>', 'into this file instead of standard output')
    .option('--studio <name>', 'whose, where there are several studios')
    .option('--json', 'as JSON instead of CSV')
    .action(async (kind: ExportKind | 'movements', words: Words) => {
      const { chooseStudio, withService } = await import('../inside.js');
      await withService(async (service) => {
        const { id } = await chooseStudio(service, words.studio);
        const text = await textOf(service, id, { kind, asJson: words.json ?? false });
        await write(text, words.out);
      });
    });
}

/** The text of the file, in pieces. */
async function textOf(
  { app }: Service,
  studioId: string,
  { kind, asJson }: { kind: ExportKind | 'movements'; asJson: boolean },
): Promise<AsyncIterable<string> | Iterable<string>> {
  const { csvOf, jsonOf, jsonOfCsv } = await import('../export/text.js');
  const { exportTable } = await import('../export/lines.js');
  const { BulkService } = await import('../../studio/catalogue/bulk.service.js');
  const { HistoryService } = await import('../../studio/stock/history.service.js');
  const history = app.get(HistoryService);
  if (kind === 'movements') {
    const csv = history.movements(studioId) as AsyncIterable<string>;
    return asJson ? jsonOfCsv(csv) : csv;
  }
  const table = await exportTable({ bulk: app.get(BulkService), history, studioId }, kind);
  return [asJson ? jsonOf(table) : csvOf(table)];
}

/** The file is for its owner's eyes only. */
async function write(text: AsyncIterable<string> | Iterable<string>, out: string | undefined) {
  const { createWriteStream } = await import('node:fs');
  const { pipeline } = await import('node:stream/promises');
  if (out === undefined) await pipeline(text, process.stdout, { end: false });
  else await pipeline(text, createWriteStream(out, { mode: 0o600 }));
}
