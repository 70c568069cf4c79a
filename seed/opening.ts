/** Opens Saltmarsh Row through the services: the studio, its people, its catalogue, its clients. */
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { DataSource } from 'typeorm';
import { Amount } from '../shared/amount.js';
import { decimal } from '../shared/decimal.js';
import { clientImport } from '../src/command-line/import/clients.js';
import { formulaImport } from '../src/command-line/import/formulas.js';
import type { ImportKind } from '../src/command-line/import/kind.js';
import { productImport } from '../src/command-line/import/products.js';
import { serviceImport } from '../src/command-line/import/services.js';
import { supplierImport } from '../src/command-line/import/suppliers.js';
import { inTransaction } from '../src/platform/database/transaction.js';
import { readRequest } from '../src/platform/http/request-pipe.js';
import type { Caller } from '../src/platform/http/rights.js';
import { BulkService } from '../src/studio/catalogue/bulk.service.js';
import { PurposesService } from '../src/studio/catalogue/purposes.service.js';
import { VesselsService } from '../src/studio/catalogue/vessels.service.js';
import { BenchesService } from '../src/studio/people/benches.service.js';
import { NewPersonRequest, StudioChangesRequest } from '../src/studio/people/people.requests.js';
import { PeopleService } from '../src/studio/people/people.service.js';
import { StudioService } from '../src/studio/people/studio.service.js';
import { timeZone } from './calendar.js';
import type { Catalogue } from './catalogue.js';
import { cell, fileOf, linesOf } from './files.js';
import { pricing } from './due.js';
import { idOf, saltmarshRow } from './ids.js';

/** The bench of the story. */
export const windowBench = {
  id: idOf('bench', 'Bench by the window'),
  name: 'Bench by the window',
};

/** Where the studio is opened. */
export interface Opening {
  readonly app: NestFastifyApplication;
  readonly dataSource: DataSource;
}

/** Enters all that is there before the first client comes. */
export async function openSaltmarshRow(
  { app, dataSource }: Opening,
  catalogue: Catalogue,
): Promise<void> {
  const studioId = saltmarshRow;
  await app.get(StudioService).open({
    id: studioId,
    name: 'Saltmarsh Row',
    currency: 'EUR',
    timeZone,
    country: 'PT',
    demo: true,
  });
  const rules = readRequest(StudioChangesRequest, { pricing });
  await app.get(StudioService).change({ studioId, name: 'Saltmarsh Row' }, rules);
  const people = addPeople(app, catalogue);
  const bulk = withFixedIds(app.get(BulkService));
  const enter = (kind: ImportKind) =>
    kind.run(fileOf(`${kind.name}.csv`), { bulk, studioId, dry: false });
  await Promise.all([enter(supplierImport), enter(clientImport)]);
  await enter(productImport);
  await Promise.all([enter(serviceImport), enter(formulaImport)]);
  const named = linesOf('purposes.csv').map((line) => cell(line, 'name'));
  await inTransaction(dataSource, studioId, async (tx) => {
    const purposes = named.map((name) => ({ id: idOf('purpose', name), name }));
    await app.get(PurposesService).addAll(tx, purposes);
    const vessels = catalogue.vessels.map(({ id, label, mark, tare, brush }) => ({
      ...{ id, label, mark },
      tare: new Amount(decimal(tare), 'g'),
      brush: new Amount(decimal(brush), 'g'),
    }));
    await app.get(VesselsService).addAll(tx, vessels);
  });
  await people;
}

async function addPeople(app: NestFastifyApplication, { people }: Catalogue): Promise<void> {
  const owner = { studioId: saltmarshRow, role: 'owner' as const, tokenId: saltmarshRow };
  const caller: Caller = { ...owner, name: 'demo', personId: undefined, benchId: undefined };
  const lines = linesOf('people.csv');
  const adding = people.map(({ id, name, role, pin }, index) => {
    const line = lines[index] ?? {};
    const share = cell(line, 'commission_share');
    const on = cell(line, 'commission_on');
    const request = { id, name, role, pin, hourRate: cell(line, 'hour_rate') };
    const paid = share === '' ? {} : { commission: { share, on } };
    return app
      .get(PeopleService)
      .add(caller, readRequest(NewPersonRequest, { ...request, ...paid }));
  });
  await Promise.all([...adding, app.get(BenchesService).add(caller, windowBench)]);
}

/** What is entered from a file gets the id that its name has in the demo. */
function withFixedIds(bulk: BulkService): BulkService {
  const named =
    (what: string) =>
    <T extends { readonly name?: string | null }>(request: T): T => ({
      ...request,
      id: idOf(what, request.name ?? ''),
    });
  const entering: Pick<BulkService, Entering> = {
    addSuppliers: (studioId, requests, options) =>
      bulk.addSuppliers(studioId, requests.map(named('supplier')), options),
    addProducts: (studioId, requests, options) =>
      bulk.addProducts(studioId, requests.map(named('product')), options),
    addServices: (studioId, requests, options) =>
      bulk.addServices(studioId, requests.map(named('service')), options),
    addFormulas: (studioId, requests, options) =>
      bulk.addFormulas(studioId, requests.map(named('formula')), options),
    addClients: (studioId, requests, options) =>
      bulk.addClients(studioId, requests.map(numbered), options),
  };
  return Object.assign(Object.create(bulk) as BulkService, entering);
}

type Entering = 'addSuppliers' | 'addProducts' | 'addServices' | 'addFormulas' | 'addClients';

function numbered<T extends { readonly number?: number }>(request: T): T {
  return { ...request, id: idOf('client', String(request.number)) };
}
