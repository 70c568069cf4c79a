/** Titles of a diary taken apart, and their words matched to services. */
import * as fc from 'fast-check';
import {
  keptName,
  matchWords,
  splitTitle,
  standingRules,
  type NamePlace,
  type WordRule,
} from '../../shared/booking-words.js';

const rules: readonly WordRule[] = [
  { words: 'half balayage', serviceIds: ['half'] },
  { words: 'balayage', serviceIds: ['full'] },
  { words: 'toner', serviceIds: ['toner'] },
  { words: 'all over', serviceIds: ['full', 'toner'] },
  { words: 'lunch', serviceIds: [] },
  { words: 'Déc. racines', serviceIds: ['roots'] },
];

interface MatchRow {
  readonly text: string;
  readonly services: readonly string[];
  readonly notAVisit?: boolean;
}

const matches: readonly MatchRow[] = [
  { text: 'Half balayage + toner', services: ['half', 'toner'] },
  { text: 'Balayage', services: ['full'] },
  { text: 'BALAYAGE/TONER', services: ['full', 'toner'] },
  { text: 'toner, all over', services: ['toner', 'full'] },
  { text: 'dec racines', services: ['roots'] },
  { text: 'toners', services: [] },
  { text: 'Lunch', services: [], notAVisit: true },
  { text: 'toner after lunch', services: ['toner'] },
  { text: '', services: [] },
];

test.each(matches)('“$text” means $services', ({ text, services, notAVisit = false }) => {
  const found = matchWords(text, rules);
  expect([...found.serviceIds].sort()).toEqual([...services].sort());
  expect(found.notAVisit).toBe(notAVisit);
});

test('a typed rule goes before the name of a service, a longer name before a shorter one', () => {
  const services = [
    { id: 'a', name: 'Lights' },
    { id: 'b', name: 'Half head of lights' },
  ];
  const standing = standingRules([{ words: 'lights', serviceIds: ['c'] }], services);
  expect(matchWords('Half head of lights', standing).serviceIds).toEqual(['c']);
  expect(matchWords('Half head of lights', standing.slice(1)).serviceIds).toEqual(['b']);
});

interface TitleRow {
  readonly title: string;
  readonly place: NamePlace;
  readonly name: string | null;
  readonly what: string;
}

const titles: readonly TitleRow[] = [
  {
    ...{ title: 'Ada Brook - Half balayage + toner', place: 'first' },
    ...{ name: 'Ada Brook', what: 'Half balayage + toner' },
  },
  { title: 'Toner – Ada Brook', place: 'last', name: 'Ada Brook', what: 'Toner' },
  {
    title: 'Ada Brook: toner, with Mia',
    place: 'first',
    name: 'Ada Brook',
    what: 'toner + with Mia',
  },
  { title: 'Ada Brook balayage', place: 'first', name: 'Ada Brook', what: 'balayage' },
  { title: 'balayage', place: 'first', name: null, what: 'balayage' },
  { title: 'Ada Brook', place: 'first', name: 'Ada Brook', what: '' },
  { title: 'Training day', place: 'none', name: null, what: 'Training day' },
  {
    ...{ title: 'Ada Brook (+351 912 345 678) - toner - ada@post.example', place: 'first' },
    ...{ name: 'Ada Brook', what: 'toner' },
  },
  { title: 'Anne-Marie Brook - toner', place: 'first', name: 'Anne-Marie Brook', what: 'toner' },
];

test.each(titles)('“$title”, name $place: $name, $what', ({ title, place, name, what }) => {
  expect(splitTitle(title, place, rules)).toEqual({ name, what });
});

test('a name is kept as first name and initial', () => {
  expect(keptName('Ada Maria Brook')).toBe('Ada B.');
  expect(keptName('Ada')).toBe('Ada');
  expect(keptName('ada@post.example')).toBeNull();
  expect(keptName(null)).toBeNull();
});

test('whatever a title holds, neither a mail address nor a number to call is kept of it', () => {
  const anAddress = fc
    .tuple(fc.stringMatching(/^[a-z]{1,8}$/), fc.stringMatching(/^[a-z]{2,8}$/))
    .map(([who, where]) => `${who}@${where}.example`);
  const aNumber = fc.integer({ min: 100_000_000, max: 999_999_999 }).map((each) => `+${each}`);
  const aPlace = fc.constantFrom<NamePlace>('first', 'last', 'none');
  const aPiece = fc.oneof(anAddress, aNumber, fc.constantFrom('Ada Brook', 'toner', 'balayage'));
  fc.assert(
    fc.property(fc.array(aPiece, { minLength: 1, maxLength: 5 }), aPlace, (pieces, place) => {
      const { name, what } = splitTitle(pieces.join(' - '), place, rules);
      const kept = `${keptName(name) ?? ''} ${what}`;
      expect(kept).not.toMatch(/@|\d{6}/);
    }),
  );
});
