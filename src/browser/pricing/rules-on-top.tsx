/** How product beyond what is in the price is charged, kind by kind. */
import { Choice } from '../shell/choice.js';
import { RateField } from './rate-field.js';
import { chargedKinds, type RulesPart, type TypedOnTop } from './rules-state.js';
import { optionsOf } from './rules-tax.js';
import { words } from './rules-texts.js';

/** The page of what is on top. */
export function OnTopRules({ rules, change }: RulesPart) {
  const set = (kind: (typeof chargedKinds)[number], part: Partial<TypedOnTop>) =>
    change({ onTop: { ...rules.onTop, [kind]: { ...rules.onTop[kind], ...part } } });
  return (
    <section className="page" aria-labelledby="on-top-title">
      <h2 id="on-top-title">{words.onTop}</h2>
      <p className="quiet">{words.verified}</p>
      <Choice
        label={words.measured}
        value={rules.measuredOn}
        options={optionsOf(words.measures)}
        onChoose={(measuredOn) => change({ measuredOn })}
      />
      {chargedKinds.map((kind) => {
        const { by, rate } = rules.onTop[kind];
        return (
          <div key={kind} className="side-by-side on-top">
            <Choice
              label={words.chargedOf(kind)}
              value={by}
              options={optionsOf(words.chargings)}
              onChoose={(next) => set(kind, { by: next })}
            />
            {by !== 'not' && (
              <RateField
                label={words.rateOf(kind)}
                value={rate}
                onChange={(next) => set(kind, { rate: next })}
              />
            )}
          </div>
        );
      })}
    </section>
  );
}
