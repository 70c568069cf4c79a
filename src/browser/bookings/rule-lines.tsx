/** The rules in their order: what they look for, what it means, how often they find it. */
import { Button } from 'react-aria-components';
import type { BookingRuleView, DiaryWordsView } from '../../../shared/contract/bookings.js';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import { MeaningKey } from './meaning-key.js';
import { texts } from './texts.js';

const { words } = texts;

/** Lines of the rules. */
export function RuleLines(props: {
  rules: readonly BookingRuleView[];
  menu: readonly ServiceView[];
  all: readonly DiaryWordsView[];
  onRules: (rules: BookingRuleView[]) => void;
}) {
  const { rules, menu, all } = props;
  if (rules.length === 0) return <p className="quiet">{words.noRules}</p>;
  const replaced = (at: number, rule: BookingRuleView) =>
    props.onRules(rules.map((each, index) => (index === at ? rule : each)));
  const earlier = (at: number) => {
    const next = [...rules];
    next.splice(at - 1, 0, ...next.splice(at, 1));
    props.onRules(next);
  };
  return (
    <ol className="plain">
      {rules.map((rule, at) => (
        <li key={rule.words} className="book-line rule-line">
          <span className="grow">
            “{rule.words}” {words.meaning} {meaningOf(rule, menu)}{' '}
            <small className="quiet">{words.matches(foundBy(rule, all))}</small>
          </span>
          <MeaningKey
            label={words.another(rule.words)}
            text={words.alsoMeans}
            menu={menu.filter(({ id }) => !rule.serviceIds.includes(id))}
            onChoose={(id) => replaced(at, { ...rule, serviceIds: [...rule.serviceIds, id] })}
          />
          <Button
            className="key"
            aria-label={words.upOf(rule.words)}
            isDisabled={at === 0}
            onPress={() => earlier(at)}
          >
            {words.up}
          </Button>
          <Button
            className="key"
            aria-label={words.awayOf(rule.words)}
            onPress={() => props.onRules(rules.filter((each) => each !== rule))}
          >
            {words.away}
          </Button>
        </li>
      ))}
    </ol>
  );
}

function meaningOf({ serviceIds }: BookingRuleView, menu: readonly ServiceView[]): string {
  if (serviceIds.length === 0) return words.notAVisit;
  return serviceIds
    .flatMap((id) => menu.find((service) => service.id === id)?.name ?? [])
    .join(' + ');
}

function foundBy(rule: BookingRuleView, all: readonly DiaryWordsView[]): number {
  return all
    .filter(({ found }) => found.includes(rule.words))
    .reduce((sum, { bookings }) => sum + bookings, 0);
}
