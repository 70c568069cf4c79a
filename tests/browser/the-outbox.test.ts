/** The line of what goes to the service: its order, what waits for something refused, its file. */
import fc from 'fast-check';
import { entriesOf, fileOf, NotReadIn } from '../../src/browser/api/queue-file.js';
import { heldBy, nextOf, sentBefore, type KeptPosting } from '../../src/browser/api/queue.js';

const ids = {
  visit: '0190a6e4-5b1c-7e2f-8a3d-000000000001',
  bowl: '0190a6e4-5b1c-7e2f-8a3d-000000000002',
  powder: '0190a6e4-5b1c-7e2f-8a3d-000000000003',
  developer: '0190a6e4-5b1c-7e2f-8a3d-000000000004',
  scoop: '0190a6e4-5b1c-7e2f-8a3d-000000000005',
  settlement: '0190a6e4-5b1c-7e2f-8a3d-000000000006',
  caution: '0190a6e4-5b1c-7e2f-8a3d-000000000007',
  otherBowl: '0190a6e4-5b1c-7e2f-8a3d-000000000008',
  otherPour: '0190a6e4-5b1c-7e2f-8a3d-000000000009',
  division: '0190a6e4-5b1c-7e2f-8a3d-00000000000a',
};

type Name = keyof typeof ids;

function posting(name: Name, path: string, seq: number, body: object = {}): KeptPosting {
  return {
    ...{ id: ids[name], method: 'POST', path, body: { id: ids[name], ...body }, what: name, seq },
    ...{ state: 'waiting', writtenAt: '2026-03-02T09:00:00.000Z', tried: false },
  };
}

/** A visit with a bowl of two pours, some of the first scooped back; another bowl of nobody. */
const day: readonly KeptPosting[] = [
  posting('visit', '/visits', 1),
  posting('bowl', '/bowls', 2, { visitId: ids.visit }),
  posting('powder', `/bowls/${ids.bowl}/pours`, 3),
  posting('scoop', `/bowls/${ids.bowl}/scooped-back`, 4, { pourId: ids.powder }),
  posting('developer', `/bowls/${ids.bowl}/pours`, 5),
  posting('caution', `/bowls/${ids.bowl}/cautions`, 6),
  posting('otherBowl', '/bowls', 7),
  posting('otherPour', `/bowls/${ids.otherBowl}/pours`, 8),
  posting('settlement', `/bowls/${ids.bowl}/settlement`, 9),
];

const refused = (...names: Name[]) =>
  day.map((each) =>
    names.some((name) => ids[name] === each.id) ? { ...each, state: 'refused' as const } : each,
  );

const heldIn = (queue: readonly KeptPosting[]) =>
  queue.filter(({ id }) => heldBy(queue).has(id)).map(({ what }) => what);

test.each<{ readonly refused: readonly Name[]; readonly held: readonly Name[] }>([
  { refused: [], held: [] },
  // everything of a visit that is not there waits; the bowl of nobody goes on
  {
    refused: ['visit'],
    held: ['bowl', 'powder', 'scoop', 'developer', 'caution', 'settlement'],
  },
  // what was left cannot be reckoned while a pour is missing; the other pour can go in
  { refused: ['powder'], held: ['scoop', 'settlement'] },
  { refused: ['scoop'], held: ['settlement'] },
  { refused: ['caution'], held: [] },
  { refused: ['otherBowl', 'settlement'], held: ['otherPour'] },
])('what waits while the service refuses $refused: $held', (row) => {
  expect(heldIn(refused(...row.refused))).toEqual(row.held);
});

test('what is poured over from a bowl with a refused pour waits, and its end too', () => {
  const division = { into: { id: ids.otherBowl, purpose: 'front' } };
  const queue = [
    ...refused('powder').slice(0, 6),
    posting('division', `/bowls/${ids.bowl}/division`, 7, division),
    posting('settlement', `/bowls/${ids.otherBowl}/settlement`, 8),
  ];
  expect(heldIn(queue)).toEqual(['scoop', 'division', 'settlement']);
});

const aQueue = fc
  .tuple(fc.shuffledSubarray([...day]), fc.array(fc.constantFrom(...Object.keys(ids)), {}))
  .map(([queue, names]) =>
    queue.map((each) =>
      names.includes(each.what) ? { ...each, state: 'refused' as const } : each,
    ),
  );

test('it goes out in order, each once; what waits for something refused does not', () => {
  fc.assert(
    fc.property(aQueue, (queue) => {
      let line = queue;
      const sent: KeptPosting[] = [];
      for (let next = nextOf(line); next; next = nextOf(line)) {
        const { id } = next;
        sent.push(next);
        line = line.map((each) => (each.id === id ? { ...each, state: 'sent' } : each));
      }
      const held = heldBy(queue);
      const due = queue.filter(({ state, id }) => state === 'waiting' && !held.has(id));
      expect(sent.map(({ seq }) => seq)).toEqual(due.map(({ seq }) => seq).sort((a, b) => a - b));
      expect(line.filter(({ state }) => state === 'refused')).toHaveLength(
        queue.filter(({ state }) => state === 'refused').length,
      );
    }),
  );
});

test('what was sent is shown for a while; what waits and what was refused stays for ever', () => {
  const sentAt = (hour: string) => `2026-03-02T${hour}:00:00.000Z`;
  const queue: KeptPosting[] = [
    { ...posting('visit', '/visits', 1), state: 'sent', sentAt: sentAt('08') },
    { ...posting('bowl', '/bowls', 2), state: 'sent', sentAt: sentAt('11') },
    { ...posting('powder', '/bowls', 3), state: 'refused' },
    posting('developer', '/bowls', 4),
  ];
  expect(sentBefore(queue, sentAt('10')).map(({ what }) => what)).toEqual(['visit']);
});

const studio = { id: '0190a6e4-5b1c-7e2f-8a3d-0000000000ff', name: 'Saltmarsh Row' };

test('a file holds what is not sent, and gives it back as it was', () => {
  const sent = { ...posting('visit', '/visits', 1), state: 'sent' as const };
  const rest = refused('powder').slice(1);
  const text = fileOf(studio, [sent, ...rest.toReversed()], '2026-03-02T10:00:00.000Z');
  expect(entriesOf(text, studio.id)).toEqual(rest);
});

test.each([
  ['no file of entries', 'product,packs\nFoil,3'],
  ['another kind of JSON', '{"items":[]}'],
  ['entries that point elsewhere', '/../people'],
])('what is %s is not read in', (_, text) => {
  const bad = text.startsWith('/') ? fileOf(studio, [posting('visit', text, 1)], '') : text;
  expect(() => entriesOf(bad, studio.id)).toThrow(NotReadIn);
});

test('entries of another studio are not read in, and the file says whose they are', () => {
  const text = fileOf({ ...studio, id: ids.visit, name: 'Causeway' }, day, '');
  expect(() => entriesOf(text, studio.id)).toThrow(
    expect.objectContaining({ studio: 'Causeway' }) as Error,
  );
});
