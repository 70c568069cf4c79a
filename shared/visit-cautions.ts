/** The cautions that the answers of a visit call for, before anything is mixed. */
import { byGravity, caution, type Caution } from './cautions.js';
import type { SensitivityWord } from './contract/visits.js';
import { count, type Decimal } from './decimal.js';

/** What was asked at the chair; what nobody answered is left out. */
export interface VisitAnswers {
  /** No rash, nothing sensitive, irritated or damaged. */
  readonly scalpSound?: boolean | undefined;
  /** An earlier reaction to hair colour or to a black-henna tattoo. */
  readonly earlierReaction?: boolean | undefined;
  /** Henna or metallic salts on this hair before. */
  readonly hennaOrMetal?: boolean | undefined;
  readonly sixteenOrOlder?: boolean | undefined;
  readonly sensitivityTest?: SensitivityTest | undefined;
}

export interface SensitivityTest {
  /** The line it was made with */
  readonly line?: string | undefined;
  /** From placing it to now */
  readonly hoursAgo: Decimal;
  /** Undefined until it was read */
  readonly reaction?: boolean | undefined;
}

/** A sensitivity test lies at least so long before it counts. */
export const sensitivityTest_hours = count(48);

/**
 * The cautions that these answers call for, the gravest first. A question not answered is no
 * caution of its own: the screen still asks it.
 * @param line the line of colour that will be used, where it is known
 */
export function cautionsOfVisit(answers: VisitAnswers, line?: string): Caution[] {
  const cautions: Caution[] = [];
  if (answers.earlierReaction) cautions.push(caution('earlier_reaction', {}));
  if (answers.scalpSound === false) cautions.push(caution('scalp_not_sound', {}));
  if (answers.hennaOrMetal) cautions.push(caution('henna_or_metal', {}));
  if (answers.sixteenOrOlder === false) cautions.push(caution('under_sixteen', {}));
  const what = missingInTest(answers.sensitivityTest, line);
  if (what !== undefined) cautions.push(caution('sensitivity_test_missing', { what }));
  return byGravity(cautions);
}

/** A sensitivity test as it was said at the chair, for the line asked about; undefined: none. */
export function sensitivityAsSaid(
  word: SensitivityWord,
  line?: string,
): SensitivityTest | undefined {
  if (word === 'none') return undefined;
  if (word === 'under 48 h') return { line, hoursAgo: count(0) };
  const placed = { line, hoursAgo: sensitivityTest_hours };
  return word === 'not read' ? placed : { ...placed, reaction: word === 'reaction' };
}

/** Of a hair colour that is made with developer, and of no other bowl. */
const ofColourOnly: ReadonlySet<string> = new Set(['sensitivity_test_missing', 'under_sixteen']);

/** Those of a visit's cautions that a bowl needs; `colour`: toner or permanent colour is in it. */
export function cautionsForBowl<C extends { readonly code: string }>(
  cautions: readonly C[],
  colour: boolean,
): C[] {
  return cautions.filter(({ code }) => colour || !ofColourOnly.has(code));
}

function missingInTest(test: SensitivityTest | undefined, line?: string): string | undefined {
  if (!test) return 'none is noted';
  if (test.reaction) return 'a reaction is noted';
  if (line !== undefined && test.line !== line) return 'none is noted for this line';
  if (test.hoursAgo.lessThan(sensitivityTest_hours)) return 'it was placed less than 48 hours ago';
  if (test.reaction === undefined) return 'it has not been read';
  return undefined;
}
