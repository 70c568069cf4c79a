/** Clients from a file, one a line. */
import { hairDensities, hairLengths } from '../../studio/catalogue/clients.requests.js';
import { textCell, wholeCell, wordCell, yesCell } from './cells.js';
import { byLines, lineByLine, type ImportKind } from './kind.js';
import { readTable } from './table.js';

const columns = {
  number: wholeCell('client number; the next one where there is none', 1, 9_999_999),
  name: textCell('name'),
  contact: textCell('telephone or mail', 200),
  notes: textCell('notes', 4000),
  next_time: textCell('one line, the first thing seen next time', 300),
  hair_length: wordCell('length of the hair', hairLengths),
  hair_density: wordCell('density of the hair', hairDensities),
  sixteen_or_older: yesCell('16 or older'),
};

export const clientImport: ImportKind = {
  name: 'clients',
  about: 'Clients, one a line',
  columns,
  run: async (content, { bulk, studioId, dry }) => {
    const lines = readTable(content, columns);
    const requests = lines.map(({ cells }) => ({
      ...(cells.number === undefined ? {} : { number: cells.number }),
      name: cells.name ?? null,
      contact: cells.contact ?? null,
      notes: cells.notes ?? null,
      nextTime: cells.next_time ?? null,
      hairLength: cells.hair_length ?? null,
      hairDensity: cells.hair_density ?? null,
      sixteenOrOlder: cells.sixteen_or_older ?? null,
    }));
    await byLines(bulk.addClients(studioId, requests, { dry }), lineByLine(lines));
    return { clients: requests.length };
  },
};
