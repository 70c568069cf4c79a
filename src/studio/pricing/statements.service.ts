/** The monthly statement of product for people who rent a chair: at cost, or cost and a markup. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter, monthOf } from '../../../shared/calendar.js';
import { minorDigits } from '../../../shared/currency.js';
import type { StatementView } from '../../../shared/contract/earnings.js';
import { canonical, decimal, fixed, sum, zero } from '../../../shared/decimal.js';
import { priceByMarkup } from '../../../shared/markup.js';
import { roundMoney, setToTotal } from '../../../shared/money.js';
import { Problem } from '../../../shared/problems/problem.js';
import { inTransaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { StudioService } from '../people/studio.service.js';
import type { StatementRequest } from './earnings.requests.js';
import { READ_OPEN_BOWLS_OF, READ_RENTER, READ_TAKEN_BY } from './statements.queries.js';

interface TakenRow extends Record<string, unknown> {
  readonly productId: string;
  readonly product: string;
  readonly unit: string;
  readonly quantity: string;
  readonly value: string;
  readonly notCharged: string;
}

@Injectable()
export class StatementsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(StudioService) private readonly studio: StudioService,
  ) {}

  /**
   * What she took in a month, product by product; the charge is value x (1 + markup), its total
   * rounded once by the studio's rule and its lines set to it.
   * @throws Problem `not_found`, `rents_no_chair`
   */
  statement(caller: Caller, request: StatementRequest): Promise<StatementView> {
    const { personId, month, markup = zero } = request;
    const first = `${month}-01`;
    const next = monthOf(dayAfter(first, 31));
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const [{ settings, currency }, [person], rows, [open]] = await Promise.all([
        this.studio.pricing(tx),
        tx.query<{ name: string; kind: string }>(READ_RENTER, [personId]),
        tx.query<TakenRow>(READ_TAKEN_BY, [personId, first, next]),
        tx.query<{ bowls: number }>(READ_OPEN_BOWLS_OF, [personId]),
      ]);
      if (!person) throw new Problem('not_found', { what: 'person', id: personId }, '/personId');
      if (person.kind !== 'rents') {
        throw new Problem('rents_no_chair', { person: person.name }, '/personId');
      }
      const exact = rows.map((row) => priceByMarkup(decimal(row.value), markup));
      const charge = roundMoney(sum(exact), currency, settings.rounding);
      const places = minorDigits(currency);
      const lines = setToTotal(exact, charge, places);
      return {
        ...{ personId, person: person.name, month, currency, markup: canonical(markup) },
        rows: rows.map(({ productId, product, unit, quantity, value }, index) => ({
          ...{ productId, product, quantity: canonical(decimal(quantity)), unit },
          value: fixed(decimal(value), 6),
          charge: fixed(lines[index] ?? zero, places),
        })),
        value: fixed(sum(rows.map((row) => decimal(row.value))), 6),
        charge: fixed(charge, places),
        notCharged: fixed(sum(rows.map((row) => decimal(row.notCharged))), 6),
        openBowls: open?.bowls ?? 0,
      };
    });
  }
}
