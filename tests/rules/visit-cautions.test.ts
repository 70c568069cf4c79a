/** A sensitivity test as it is said at the chair; which of a visit's cautions a bowl needs. */
import {
  cautionsForBowl,
  cautionsOfVisit,
  sensitivityAsSaid,
} from '../../shared/visit-cautions.js';

test.each([
  ['none', undefined],
  ['under 48 h', { line: 'Quay', hours: '0', reaction: undefined }],
  ['not read', { line: 'Quay', hours: '48', reaction: undefined }],
  ['no reaction', { line: 'Quay', hours: '48', reaction: false }],
  ['reaction', { line: 'Quay', hours: '48', reaction: true }],
] as const)('a sensitivity test, said to be "%s"', (word, test) => {
  const said = sensitivityAsSaid(word, 'Quay');
  const { line, hoursAgo, reaction } = said ?? {};
  expect(said && { line, hours: hoursAgo?.toFixed(), reaction }).toEqual(test);
});

test('what belongs to colour only is left out of a bowl of lightener', () => {
  const all = cautionsOfVisit({ scalpSound: false, sixteenOrOlder: false });
  const codes = (colour: boolean) => cautionsForBowl(all, colour).map(({ code }) => code);
  expect(codes(true)).toEqual(['scalp_not_sound', 'under_sixteen', 'sensitivity_test_missing']);
  expect(codes(false)).toEqual(['scalp_not_sound']);
});
