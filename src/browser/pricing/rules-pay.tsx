/** What cards cost, and the commission of people who have none of their own. */
import { Choice } from '../shell/choice.js';
import { RateField } from './rate-field.js';
import type { RulesPart } from './rules-state.js';
import { optionsOf } from './rules-tax.js';
import { words } from './rules-texts.js';

/** Fee of card payments. */
export function CardRules({ rules, currency, change }: RulesPart) {
  return (
    <>
      <h2>{words.card}</h2>
      <Choice
        label={words.cardKnown}
        value={rules.card}
        options={optionsOf(words.cards)}
        onChoose={(card) => change({ card })}
      />
      {rules.card === 'some' && (
        <>
          <div className="side-by-side">
            <RateField
              label={words.cardShare}
              value={rules.cardShare}
              onChange={(cardShare) => change({ cardShare })}
            />
            <RateField
              label={words.cardFixed(currency)}
              value={rules.cardFixed}
              onChange={(cardFixed) => change({ cardFixed })}
            />
          </div>
          <Choice
            label={words.onTip}
            value={rules.onTip}
            options={optionsOf(words.tips)}
            onChoose={(onTip) => change({ onTip })}
          />
        </>
      )}
    </>
  );
}

/** Commission in per cent, and of what. */
export function CommissionRules({ rules, change }: RulesPart) {
  return (
    <>
      <h2>{words.commissionTitle}</h2>
      <Choice
        label={words.commission}
        value={rules.commission}
        options={optionsOf(words.commissions)}
        onChoose={(commission) => change({ commission })}
      />
      {rules.commission !== 'none' && (
        <RateField
          label={words.commissionShare}
          value={rules.commissionShare}
          onChange={(commissionShare) => change({ commissionShare })}
        />
      )}
    </>
  );
}
