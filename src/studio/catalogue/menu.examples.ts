/** The menu as the OpenAPI shows it. */
import type {
  MenuView,
  ServiceVersionsView,
  ServiceVersionView,
} from '../../../shared/contract/menu.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d73';

const terms: Omit<MenuView['rows'][number], 'serviceId' | 'name' | 'startsOn' | 'next' | 'notes'> =
  {
    price: '125',
    handsOnMinutes: 75,
    chairMinutes: 120,
    kit: [{ productId: id, quantity: '30', unit: 'piece' }],
    inThePrice: [{ kind: 'lightener', grams: '60', bowls: '1' }],
    onTop: [{ kind: 'lightener', label: 'Another bowl', by: 'bowl', rate: '9.5' }],
  };

const termsAbsent = ['/inThePrice/grams', '/inThePrice/bowls', '/onTop/label'];
const inRows = (names: readonly string[]) => names.map((name) => `/rows${name}`);

export const menuExample: MenuView = {
  on: '2026-03-02',
  currency: 'EUR',
  rows: [
    {
      ...{ serviceId: id, name: 'Half head of lights', ...terms },
      ...{ startsOn: '2026-02-01', next: { startsOn: '2026-04-01', price: '129' } },
      notes: [
        {
          code: 'in_the_price_other_unit',
          text:
            '60 g of lightener is in the price, and lightener on top is charged by the bowl: ' +
            'nothing of it counts as in the price. Say both the same way.',
        },
      ],
    },
  ],
};
export const menuShape = {
  nullable: ['/rows/startsOn', '/rows/next'],
  optional: inRows(termsAbsent),
};

export const versionExample: ServiceVersionView = {
  ...{ id, startsOn: '2026-04-01', ...terms, state: 'planned' },
  ...{ madeAt: '2026-03-02T09:15:00.000Z', madeBy: 'Ines Cordgrass' },
};
const versionNulls = ['/id', '/startsOn', '/madeAt', '/madeBy'];
export const versionShape = { nullable: versionNulls, optional: ['/dry', ...termsAbsent] };

export const versionsExample: ServiceVersionsView = {
  serviceId: id,
  name: 'Half head of lights',
  currency: 'EUR',
  rows: [versionExample],
};
export const versionsShape = { nullable: inRows(versionNulls), optional: inRows(termsAbsent) };
