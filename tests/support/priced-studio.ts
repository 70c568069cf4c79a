/** A studio with rules of price, a stylist, a menu and a shelf; bowls and visits in a few words. */
import type { PersonView } from '../../shared/contract/people.js';
import type { PriceSheetView } from '../../shared/contract/pricing.js';
import type { ClosedVisitView, VisitView } from '../../shared/contract/visits.js';
import { aShelf, type Shelf } from './saltmarsh.js';
import type { TestStudio } from './studio.js';

export interface PricedStudio {
  readonly studio: TestStudio;
  readonly shelf: Shelf;
  /** 500 pieces for 25.00: 0.05 a piece. */
  readonly foils: string;
  /** An hour of hers is 24.00, her commission 10 % of net. */
  readonly wren: string;
  /** 120.00, 75 minutes hands-on, 120 in the chair, 30 foils. */
  readonly lights: string;
  visit(body?: object): Promise<VisitView>;
  /** A bowl of so much of each product, poured from 10:00 on, not settled yet. */
  pour(visitId: string | null, purpose: string, parts: Parts): Promise<string>;
  settle(bowlId: string, leftover: string, rest?: object): Promise<unknown>;
  close(visitId: string, body?: object): Promise<ClosedVisitView>;
  sheet(visitId: string, query?: string): Promise<PriceSheetView>;
}

type Parts = readonly (readonly [productId: string, grams: string])[];

/** Prices include 23 % VAT; a minute of a chair is 0.25; cards cost 1.5 % and 0.05. */
export async function aPricedStudio(studio: TestStudio): Promise<PricedStudio> {
  studio.clock.set('2026-03-03T12:00:00Z');
  const shelf = await aShelf(studio);
  const foils = await studio.owner.post<{ id: string }>('/products', {
    ...{ name: 'Foil', kind: 'sundry', unit: 'piece' },
  });
  const line = { productId: foils.id, quantity: '500', cost: '25' };
  await studio.owner.post('/openings', { lines: [line] });
  const wren = await studio.owner.post<PersonView>('/people', {
    ...{ name: 'Wren Tallis', role: 'stylist', hourRate: '24' },
    commission: { share: '0.1', on: 'net' },
  });
  const lights = await studio.owner.post<{ id: string }>('/services', {
    ...{ name: 'Half head of lights', price: '120', handsOnMinutes: 75, chairMinutes: 120 },
    kit: [{ productId: foils.id, quantity: '30', unit: 'piece' }],
  });
  await studio.owner.patch('/studio', {
    pricing: {
      taxes: [{ label: 'VAT', rate: '0.23' }],
      overheadPerChairMinute: '0.25',
      cardFee: { share: '0.015', fixed: '0.05' },
    },
  });
  return {
    ...{ studio, shelf, foils: foils.id, wren: wren.id, lights: lights.id },
    ...inWords(studio, lights.id, wren.id),
  };
}

function inWords(studio: TestStudio, serviceId: string, personId: string) {
  const grams = (quantity: string) => ({ quantity, unit: 'g' });
  let planned = 0;
  return {
    visit: (body: object = {}) =>
      studio.owner.post<VisitView>('/visits', {
        ...{ personId, services: [{ serviceId }], startedAt: '2026-03-03T09:00:00Z' },
        ...body,
      }),
    pour: async (visitId: string | null, purpose: string, parts: Parts) => {
      const visit = visitId === null ? {} : { visitId };
      const plannedAt = `2026-03-03T09:59:00.${String((planned += 1)).padStart(3, '0')}Z`;
      const bowl = { id: randomId(), ...visit, purpose, sizedBy: personId, plannedAt };
      const pours = parts.map(([productId, quantity], index) => ({
        ...{ id: randomId(), productId, quantity, unit: 'g' },
        pouredAt: `2026-03-03T10:0${index}:00Z`,
      }));
      await studio.owner.post('/bowls/record', { id: randomId(), bowl, pours });
      return bowl.id;
    },
    settle: (bowlId: string, leftover: string, rest: object = {}) =>
      studio.owner.post(`/bowls/${bowlId}/settlement`, {
        ...{ leftover: grams(leftover), settledAt: '2026-03-03T10:50:00Z', ...rest },
      }),
    close: (visitId: string, body: object = {}) =>
      studio.owner.post<ClosedVisitView>(`/visits/${visitId}/close`, {
        closedAt: '2026-03-03T11:00:00Z',
        ...body,
      }),
    sheet: (visitId: string, query = '') =>
      studio.owner.get<PriceSheetView>(`/visits/${visitId}/price-sheet${query}`),
  };
}

function randomId(): string {
  return crypto.randomUUID();
}
