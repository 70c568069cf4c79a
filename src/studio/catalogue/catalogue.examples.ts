/** Full examples of the catalogue's answers, for the OpenAPI; invented, of Saltmarsh Row. */

export const productExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70',
  name: 'Developer 20 vol',
  kind: 'developer',
  unit: 'ml',
  line: 'Tidewater',
  strength: '20',
  percent: '6',
  density: '1.01',
  gramsPerPiece: '1.5',
  dose: { quantity: '4', unit: 'ml' },
  openLifeDays: 180,
  workingMinutes: 50,
  scalpCeiling: '20',
  offScalpCeiling: '40',
  supplierId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d71',
  packs: [
    {
      id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d72',
      label: '1000 ml bottle',
      quantity: '1000',
      unit: 'ml',
      gtin: '05901234123457',
      orderCode: 'HW-2010',
      emptyWeight: { quantity: '61', unit: 'g' },
      listPrice: '9.8',
    },
  ],
  reorder: { point: '1500', leadTimeDays: 3, serviceLevel: '0.95', keepSealed: 2 },
  assumedDensity: true,
  namedLater: false,
  retiredAt: '2026-03-02T09:15:00.000Z',
};

/** Fields of a product that may be null, or may be missing. */
export const productNulls = [
  ...['/line', '/strength', '/percent', '/density', '/gramsPerPiece', '/dose', '/openLifeDays'],
  ...['/workingMinutes', '/scalpCeiling', '/offScalpCeiling', '/supplierId', '/retiredAt'],
  ...['/packs/gtin', '/packs/orderCode', '/packs/emptyWeight', '/packs/listPrice'],
  ...['/reorder/point', '/reorder/leadTimeDays', '/reorder/serviceLevel', '/reorder/keepSealed'],
];
export const productAbsent = ['/assumedDensity', '/packs/listPrice'];

export const supplierExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d71',
  name: 'Harbour Wholesale',
  leadTimeDays: 3,
  minimumOrder: '150',
  freight: '8.5',
  freeFreightFrom: '250',
  orderDay: 2,
  retiredAt: '2026-03-02T09:15:00.000Z',
};
export const supplierNulls = [
  ...['/leadTimeDays', '/minimumOrder', '/freight', '/freeFreightFrom', '/orderDay'],
  '/retiredAt',
];

export const serviceExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d73',
  name: 'Half head of lights',
  price: '85',
  handsOnMinutes: 75,
  chairMinutes: 120,
  kit: [{ productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d74', quantity: '30', unit: 'piece' }],
  inThePrice: [{ kind: 'lightener', grams: '60', bowls: '1' }],
  onTop: [{ kind: 'lightener', label: 'Another bowl', by: 'bowl', rate: '9.5' }],
  retiredAt: '2026-03-02T09:15:00.000Z',
};
export const serviceAbsent = [
  ...['/price', '/inThePrice/grams', '/inThePrice/bowls', '/onTop', '/onTop/label'],
];

export const vesselExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d75',
  label: 'black bowl',
  mark: 'triangle',
  tare: { quantity: '112', unit: 'g' },
  brush: { quantity: '24', unit: 'g' },
  retiredAt: '2026-03-02T09:15:00.000Z',
};
export const vesselNulls = ['/mark', '/brush', '/retiredAt'];

export const purposeExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d76',
  name: 'front',
  retiredAt: '2026-03-02T09:15:00.000Z',
};

const plan = {
  ratio: '1:2',
  powders: [{ productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70' }],
  strength: '13',
  size: { total: { quantity: '60', unit: 'g' } },
};

export const formulaExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d77',
  clientId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d78',
  name: 'Sea glass, roots',
  purpose: 'front',
  plan,
  poured: plan,
  minutesOnHair: 35,
  nextTime: 'start the nape with 10 vol',
  retiredAt: '2026-03-02T09:15:00.000Z',
};
export const formulaNulls = [
  ...['/clientId', '/purpose', '/poured', '/minutesOnHair', '/nextTime', '/retiredAt'],
];
export const formulaFree = ['/plan', '/poured'];
export const newFormulaExample = { id: formulaExample.id, clientId: formulaExample.clientId };

/** Pointers of one thing, as they are in a page of a list of it. */
export function inPage(pointers: readonly string[]): string[] {
  return pointers.map((pointer) => `/items${pointer}`);
}

/** One page of a list, the last one having null for `next`. */
export function pageExample<T>(item: T): { items: T[]; next: string } {
  return { items: [item], next: 'WyIxODQiXQ' };
}
