/** The menu and its versions as they travel. */
import type {
  MenuRowView,
  ServiceTermsView,
  ServiceVersionView,
} from '../../../shared/contract/menu.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';

/** A version as it is read. */
export interface VersionRow extends ServiceTermsView {
  readonly id: string;
  readonly startsOn: string;
  readonly madeAt: string;
  readonly madeBy: string | null;
  readonly withdrawn: boolean;
}

/**
 * What a service was, is and is to be, the one that starts last first; of two for one day the
 * earlier was never in force.
 * @param rows as READ_VERSIONS has them
 */
export function versionViews(
  first: ServiceTermsView,
  rows: readonly VersionRow[],
  today: string,
): ServiceVersionView[] {
  const standing = rows.filter(({ withdrawn }) => !withdrawn);
  const inForce = standing.find(({ startsOn }) => startsOn <= today);
  const stateOf = (row: VersionRow): ServiceVersionView['state'] => {
    if (row.startsOn > today) return 'planned';
    return row === inForce ? 'in force' : 'over';
  };
  const beginning: ServiceVersionView = {
    ...{ id: null, startsOn: null, ...first },
    ...{ state: inForce ? 'over' : 'in force', madeAt: null, madeBy: null },
  };
  const later = rows.map((row): ServiceVersionView => {
    const { withdrawn, ...version } = row;
    return { ...version, state: withdrawn ? 'withdrawn' : stateOf(row) };
  });
  return [...later, beginning];
}

/** What of a service cannot work together: grams in the price where bowls are counted. */
export function menuNotes(
  { inThePrice, onTop }: Pick<MenuRowView, 'inThePrice' | 'onTop'>,
  usual: readonly OnTopSetting[],
): MenuRowView['notes'] {
  return inThePrice.flatMap(({ kind, grams }): MenuRowView['notes'] => {
    const find = (rules: readonly OnTopSetting[]) => rules.find((rule) => rule.kind === kind);
    const rule = find(onTop) ?? find(usual);
    if (!rule || (rule.by === 'bowl') === (grams === undefined)) return [];
    const [within, counted] =
      grams === undefined ? ['a number of bowls', 'by weight'] : [`${grams} g`, 'by the bowl'];
    const text =
      `${within} of ${kind} is in the price, and ${kind} on top is charged ${counted}: ` +
      'nothing of it counts as in the price. Say both the same way.';
    return [{ code: 'in_the_price_other_unit', text }];
  });
}
