/** bowlworth import: catalogue, deliveries, uses, bookings from files, all of a file or none. */
import { readFile } from 'node:fs/promises';
import { Argument, Option, type Command } from 'commander';
import type { NamePlace } from '../../../shared/booking-words.js';
import type { Service } from '../../service.js';

const kinds = [
  ...['suppliers', 'products', 'prices', 'services', 'clients', 'formulas'],
  ...['deliveries', 'usage', 'bookings'],
];

interface Words {
  readonly columns?: boolean;
  readonly dry?: boolean;
  readonly studio?: string;
  readonly json?: boolean;
  readonly named: NamePlace;
  readonly whole?: boolean;
}

export function importCommand(program: Command): void {
  program
    .command('import')
    .description(
      'Read a CSV file into the studio, bookings also from an iCalendar file: all of it, or ' +
        'none and every wrong line',
    )
    .addArgument(new Argument('<kind>', 'what is in the file').choices(kinds))
    .argument('[file]', 'the file, in UTF-8, with a header; cells between , ; or tabs')
    .option('--columns', 'say which columns a file of this kind has, and import nothing')
    .option('--dry', 'do all of it and store nothing')
    .option('--studio <name>', 'whose, where there are several studios')
    .option('--json', 'answer as JSON')
    .addOption(
      new Option('--named <where>', 'where titles of a calendar name the client')
        .choices(['first', 'last', 'none'])
        .default('first'),
    )
    .option('--whole', 'bookings to come that are not in the file were called off')
    .action(async (kind: string, file: string | undefined, words: Words, command: Command) => {
      if (words.columns) return tellColumns(kind, words);
      if (file === undefined) command.error('Which file? Name it after the kind.', { exitCode: 2 });
      else await importFile(kind, file, words);
    });
}

async function tellColumns(kindName: string, words: Words): Promise<void> {
  const { answer, columns } = await import('../terminal.js');
  const told = Object.entries(await columnsOf(kindName)).map(([name, { needed, about }]) => ({
    ...{ name, needed, about },
  }));
  const rows = told.map(({ name, needed, about }) => [name, needed ? 'needed' : '', about]);
  answer(told, columns(rows), words.json);
}

async function columnsOf(
  kindName: string,
): Promise<Readonly<Record<string, { readonly needed: boolean; readonly about: string }>>> {
  if (kindName !== 'bookings') return (await load(kindName)).kind.columns;
  return (await import('../../studio/bookings/booking-columns.js')).bookingColumns;
}

async function importFile(kindName: string, file: string, words: Words): Promise<void> {
  const { withService, chooseStudio } = await import('../inside.js');
  const { answer, progress } = await import('../terminal.js');
  const content = await readFile(file).catch((error: unknown) => {
    throw new Error(`${file} cannot be read (${(error as NodeJS.ErrnoException).code}).`);
  });
  const dry = words.dry ?? false;
  const imported = await withService(async (service) => {
    const { id: studioId } = await chooseStudio(service, words.studio);
    progress(`Reading ${file} …`);
    if (kindName === 'bookings') return diary(service, studioId, content, words);
    const { kind, BulkService, HistoryService } = await load(kindName);
    const [bulk, history] = [service.app.get(BulkService), service.app.get(HistoryService)];
    return kind.run(content, { bulk, history, studioId, dry });
  });
  const counted = Object.entries(imported).map(([what, number]) => `${what}: ${number}`);
  const end = dry ? 'could be imported; nothing was stored' : 'imported';
  answer({ ...imported, dry }, [`${counted.join(', ')} (${end})`], words.json);
}

async function diary(service: Service, studioId: string, content: Buffer, words: Words) {
  const { importBookings } = await import('../import/bookings.js');
  const { BookingImportService } = await import('../../studio/bookings/booking-import.service.js');
  const { named, whole = false, dry = false } = words;
  const bookings = service.app.get(BookingImportService);
  const now = service.clock.now();
  return importBookings(content, { bookings, studioId, now, named, whole, dry });
}

async function load(kindName: string) {
  const [{ importKinds }, { BulkService }, { HistoryService }] = await Promise.all([
    import('../import/kinds.js'),
    import('../../studio/catalogue/bulk.service.js'),
    import('../../studio/stock/history.service.js'),
  ]);
  const kind = importKinds.find(({ name }) => name === kindName);
  if (!kind) throw new Error(`There is no import of ${kindName}.`);
  return { kind, BulkService, HistoryService };
}
