/** Whole catalogues at once, for files: names looked up, lists added all or none, lists read. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { StockUnit } from '../../../shared/amount.js';
import { canonical, type Decimal } from '../../../shared/decimal.js';
import { LineCheck } from '../../../shared/problems/lines-refused.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import * as sql from './bulk.queries.js';
import type { NewSupplierRequest } from './catalogue.requests.js';
import type { NewClientRequest } from './clients.requests.js';
import { ClientsService } from './clients.service.js';
import type { FormulaPlan } from './formula-plan.js';
import type { NewFormulaRequest } from './formulas.requests.js';
import { FormulasService } from './formulas.service.js';
import type { NewProductRequest } from './products.requests.js';
import { ProductsService } from './products.service.js';
import type { NewServiceRequest } from './services.requests.js';
import { ServicesService } from './services.service.js';
import { SuppliersService } from './suppliers.service.js';

/** A product as a file names it. */
export interface NamedProduct {
  readonly id: string;
  readonly name: string;
  readonly line: string | null;
  readonly unit: StockUnit;
  readonly retired: boolean;
}

/** A pack as a price list names it. */
export interface NamedPack {
  readonly id: string;
  readonly label: string;
  readonly gtin: string | null;
  readonly orderCode: string | null;
  readonly name: string;
  readonly line: string | null;
}

/** A formula as an export reads it. */
export interface FormulaLine {
  readonly name: string;
  readonly client: number | null;
  readonly purpose: string | null;
  readonly plan: FormulaPlan;
  readonly minutes_on_hair: number | null;
  readonly next_time: string | null;
}

/** What a line of an export holds, by column. */
export type ExportLine = Readonly<Record<string, unknown>>;

interface Options {
  /** Do all of it, and undo it at the end. */
  readonly dry: boolean;
}

@Injectable()
export class BulkService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(ProductsService) private readonly products: ProductsService,
    @Inject(SuppliersService) private readonly suppliers: SuppliersService,
    @Inject(ServicesService) private readonly services: ServicesService,
    @Inject(ClientsService) private readonly clients: ClientsService,
    @Inject(FormulasService) private readonly formulas: FormulasService,
  ) {}

  productNames(studioId: string): Promise<NamedProduct[]> {
    return this.read(studioId).query(sql.PRODUCT_NAMES);
  }

  supplierNames(studioId: string): Promise<{ id: string; name: string }[]> {
    return this.read(studioId).query(sql.SUPPLIER_NAMES);
  }

  packNames(studioId: string): Promise<NamedPack[]> {
    return this.read(studioId).query(sql.PACK_NAMES);
  }

  /** Ids of clients by number. */
  async clientNumbers(studioId: string): Promise<Map<number, string>> {
    const rows = await this.read(studioId).query<{ id: string; number: number }>(
      sql.CLIENT_NUMBERS,
    );
    return new Map(rows.map(({ id, number }) => [number, id]));
  }

  /** @throws LinesRefused, also `name_in_use` for a product of this name and line */
  async addProducts(studioId: string, requests: readonly NewProductRequest[], { dry }: Options) {
    const present = await this.productNames(studioId);
    refuseSameNames('product', present, requests, productLabel);
    await this.write(studioId, dry, (tx) => this.products.insert(tx, requests));
  }

  /** @throws LinesRefused, also `name_in_use` */
  async addSuppliers(studioId: string, requests: readonly NewSupplierRequest[], { dry }: Options) {
    const present = await this.supplierNames(studioId);
    refuseSameNames('supplier', present, requests, nameOf);
    await this.write(studioId, dry, (tx) => this.suppliers.addAll(tx, requests));
  }

  /** Products of kits are taken as checked. @throws LinesRefused, also `name_in_use` */
  async addServices(studioId: string, requests: readonly NewServiceRequest[], { dry }: Options) {
    const present = await this.read(studioId).query<{ name: string }>(sql.SERVICE_NAMES);
    refuseSameNames('service', present, requests, nameOf);
    await this.write(studioId, dry, (tx) => this.services.addAll(tx, requests));
  }

  /** @throws LinesRefused, also `number_in_use` */
  async addClients(studioId: string, requests: readonly NewClientRequest[], { dry }: Options) {
    await this.write(studioId, dry, (tx) => this.clients.insert(tx, requests));
  }

  /** Products and clients are taken as checked. @throws LinesRefused, also `name_in_use` */
  async addFormulas(studioId: string, requests: readonly NewFormulaRequest[], { dry }: Options) {
    const present = await this.read(studioId).query<{ name: string; clientId: string | null }>(
      sql.FORMULA_NAMES,
    );
    refuseSameNames('formula', present, requests, ({ name, clientId }: Owned) =>
      clientId ? `${name} ${clientId}` : name,
    );
    await this.write(studioId, dry, (tx) => this.formulas.insert(tx, requests));
  }

  /** New list prices of packs, in one statement. */
  async setPrices(
    studioId: string,
    prices: readonly { readonly id: string; readonly price: Decimal }[],
    { dry }: Options,
  ): Promise<void> {
    await this.write(studioId, dry, (tx) => this.putPrices(tx, prices));
  }

  /** The same within a transaction. */
  async putPrices(
    tx: Transaction,
    prices: readonly { readonly id: string; readonly price: Decimal }[],
  ): Promise<void> {
    const rows = prices.map(({ id, price }) => ({ id, price: canonical(price) }));
    await tx.execute(sql.SET_PRICES, [JSON.stringify(rows)]);
  }

  /** What an export of a kind writes, a line for each. */
  exportLines(
    studioId: string,
    kind: 'products' | 'suppliers' | 'services' | 'clients',
  ): Promise<ExportLine[]> {
    const statements = {
      products: sql.EXPORT_PRODUCTS,
      suppliers: sql.EXPORT_SUPPLIERS,
      services: sql.EXPORT_SERVICES,
      clients: sql.EXPORT_CLIENTS,
    };
    const values = kind === 'services' ? [this.clock.now()] : [];
    return this.read(studioId).query(statements[kind], values);
  }

  exportFormulas(studioId: string): Promise<FormulaLine[]> {
    return this.read(studioId).query(sql.EXPORT_FORMULAS);
  }

  private async write(
    studioId: string,
    dry: boolean,
    work: (tx: Transaction) => Promise<unknown>,
  ): Promise<void> {
    await inTransaction(
      this.dataSource,
      studioId,
      // a plan made while a table was nearly empty reads all of it for each row that refers to it
      async (tx) => Promise.all([tx.execute(sql.PLAN_ANEW), work(tx)]),
      { dry },
    );
  }

  private read(studioId: string) {
    return forStudio(this.dataSource, studioId);
  }
}

interface Named {
  readonly name: string;
}

interface Owned extends Named {
  readonly clientId?: string | null;
}

const nameOf = ({ name }: Named): string => name;

/** A product as a file tells it from others: its name, and its line where it has one. */
export function productLabel({ name, line }: Named & { readonly line?: string | null }): string {
  return line ? `${name} (${line})` : name;
}

/** @throws LinesRefused with `name_in_use` for what is there already, or earlier in the list */
function refuseSameNames<T extends Named>(
  what: string,
  present: readonly T[],
  added: readonly T[],
  keyOf: (named: T) => string,
): void {
  const seen = new Set(present.map((each) => keyOf(each).toLowerCase()));
  const check = new LineCheck(added.length);
  added.forEach((each, line) => {
    const key = keyOf(each).toLowerCase();
    if (seen.has(key)) {
      check.refuse(line, new Problem('name_in_use', { what, name: each.name }, '/name'));
    }
    seen.add(key);
  });
  check.done();
}
