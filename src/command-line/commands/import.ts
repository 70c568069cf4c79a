/** bowlworth import: catalogue, deliveries and uses from files, all of a file or none of it. */
import { readFile } from 'node:fs/promises';
import { Argument, type Command } from 'commander';

const kinds = [
  ...['suppliers', 'products', 'prices', 'services', 'clients', 'formulas'],
  ...['deliveries', 'usage'],
];

interface Words {
  readonly columns?: boolean;
  readonly dry?: boolean;
  readonly studio?: string;
  readonly json?: boolean;
}

export function importCommand(program: Command): void {
  program
    .command('import')
    .description('Read a CSV file into the studio: all of it, or none and every wrong line')
    .addArgument(new Argument('<kind>', 'what is in the file').choices(kinds))
    .argument('[file]', 'the file, in UTF-8, with a header; cells between , ; or tabs')
    .option('--columns', 'say which columns a file of this kind has, and import nothing')
    .option('--dry', 'do all of it and store nothing')
    .option('--studio <name>', 'whose, where there are several studios')
    .option('--json', 'answer as JSON')
    .action(async (kind: string, file: string | undefined, words: Words, command: Command) => {
      if (words.columns) return tellColumns(kind, words);
      if (file === undefined) command.error('Which file? Name it after the kind.', { exitCode: 2 });
      else await importFile(kind, file, words);
    });
}

async function tellColumns(kindName: string, words: Words): Promise<void> {
  const { kind } = await load(kindName);
  const { answer, columns } = await import('../terminal.js');
  const told = Object.entries(kind.columns).map(([name, { needed, about }]) => ({
    ...{ name, needed, about },
  }));
  const rows = told.map(({ name, needed, about }) => [name, needed ? 'needed' : '', about]);
  answer(told, columns(rows), words.json);
}

async function importFile(kindName: string, file: string, words: Words): Promise<void> {
  const { kind, withService, chooseStudio, BulkService, HistoryService } = await load(kindName);
  const { answer, progress } = await import('../terminal.js');
  const content = await readFile(file).catch((error: unknown) => {
    throw new Error(`${file} cannot be read (${(error as NodeJS.ErrnoException).code}).`);
  });
  const dry = words.dry ?? false;
  const imported = await withService(async (service) => {
    const { id: studioId } = await chooseStudio(service, words.studio);
    const bulk = service.app.get(BulkService);
    progress(`Reading ${file} …`);
    return kind.run(content, { bulk, history: service.app.get(HistoryService), studioId, dry });
  });
  const counted = Object.entries(imported).map(([what, number]) => `${what}: ${number}`);
  const end = dry ? 'could be imported; nothing was stored' : 'imported';
  answer({ ...imported, dry }, [`${counted.join(', ')} (${end})`], words.json);
}

async function load(kindName: string) {
  const [{ importKinds }, inside, { BulkService }, { HistoryService }] = await Promise.all([
    import('../import/kinds.js'),
    import('../inside.js'),
    import('../../studio/catalogue/bulk.service.js'),
    import('../../studio/stock/history.service.js'),
  ]);
  const kind = importKinds.find(({ name }) => name === kindName);
  if (!kind) throw new Error(`There is no import of ${kindName}.`);
  return { kind, ...inside, BulkService, HistoryService };
}
