/** Full examples of answers about clients, for the OpenAPI; invented. */

export const sensitivityTestExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d79',
  clientId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d78',
  line: 'Tidewater',
  placedAt: '2026-03-02T09:15:00.000Z',
  readAt: '2026-03-04T10:00:00.000Z',
  result: 'no reaction',
};
export const sensitivityTestNulls = ['/readAt', '/result'];
export const newSensitivityTestExample = {
  id: sensitivityTestExample.id,
  clientId: sensitivityTestExample.clientId,
};

export const clientExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d78',
  number: 192,
  name: 'Ada Brook',
  contact: 'ada@example.org',
  notes: 'Likes the window chair',
  nextTime: 'start the nape with 10 vol',
  hairLength: 'medium',
  hairDensity: 'fine',
  sixteenOrOlder: true,
  retiredAt: '2026-03-02T09:15:00.000Z',
  forgottenAt: '2026-03-02T09:15:00.000Z',
  sensitivityTests: [sensitivityTestExample],
};
/** A bench sees only number, name, next time and hair. */
export const clientAbsent = [
  ...['/contact', '/notes', '/sixteenOrOlder', '/retiredAt', '/forgottenAt', '/sensitivityTests'],
];
export const clientNulls = [
  ...['/name', '/contact', '/notes', '/nextTime', '/hairLength', '/hairDensity'],
  ...['/sixteenOrOlder', '/retiredAt', '/forgottenAt'],
  ...['/sensitivityTests/readAt', '/sensitivityTests/result'],
];
export const newClientExample = { id: clientExample.id, number: 192, label: 'client 0192' };

export const clientBowlExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d7a',
  visitId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d7b',
  visitStartedAt: '2026-03-02T09:15:00.000Z',
  purpose: 'front',
  state: 'settled',
  formulaId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d77',
  plan: { ratio: '1:2' },
  lastPourAt: '2026-03-02T09:25:00.000Z',
  mixed: { quantity: '60', unit: 'g' },
  applied: { quantity: '52', unit: 'g' },
  wasted: { quantity: '8', unit: 'g' },
  estimated: false,
  pours: [
    {
      productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70',
      name: 'Developer 20 vol',
      side: 'developer',
      quantity: '40',
      unit: 'ml',
      grams: '40.4',
    },
  ],
};
export const clientBowlNulls = ['/formulaId', '/plan', '/lastPourAt', '/pours/side'];
