/** Taxes, whether they are within the prices of the menu, and how they are rounded. */
import { Button, Input, Label, TextField } from 'react-aria-components';
import { Choice } from '../shell/choice.js';
import { RateField } from './rate-field.js';
import type { RulesPart } from './rules-state.js';
import type { Rules } from './rules-state.js';
import { words } from './rules-texts.js';
const most = 5;

/** Options of a choice, of the words that name them. */
export function optionsOf<T extends string>(named: Readonly<Record<T, string>>) {
  return (Object.keys(named) as T[]).map((value) => ({ value, text: named[value] }));
}

/** The page of taxes. */
export function TaxRules({ rules, currency, change }: RulesPart) {
  const { taxKnown, taxes } = rules;
  const turn = (next: Rules['taxKnown']) =>
    change({
      taxKnown: next,
      ...(next === 'some' && taxes.length === 0 ? { taxes: [{ label: '', rate: '' }] } : {}),
    });
  return (
    <section className="page" aria-labelledby="tax-title">
      <h2 id="tax-title">{words.tax}</h2>
      <Choice
        label={words.mode}
        value={rules.priceMode}
        options={optionsOf(words.modes)}
        onChoose={(priceMode) => change({ priceMode })}
      />
      <Choice
        label={words.taxKnown}
        value={taxKnown}
        options={optionsOf(words.taxes).filter(
          ({ value }) => value !== 'unsaid' || taxKnown === 'unsaid',
        )}
        onChoose={turn}
      />
      {taxKnown === 'some' && <Taxes rules={rules} change={change} />}
      <Choice
        label={words.basis}
        value={rules.taxBasis}
        options={optionsOf(words.bases)}
        onChoose={(taxBasis) => change({ taxBasis })}
      />
      <Choice
        label={words.rounding}
        value={rules.rounding}
        options={optionsOf(words.roundings)}
        onChoose={(rounding) => change({ rounding })}
      />
      <RateField
        label={words.step(currency)}
        value={rules.priceStep}
        onChange={(priceStep) => change({ priceStep })}
      />
    </section>
  );
}

function Taxes({ rules: { taxes }, change }: Pick<RulesPart, 'rules' | 'change'>) {
  const set = (at: number, part: Partial<(typeof taxes)[number]>) =>
    change({ taxes: taxes.map((tax, index) => (index === at ? { ...tax, ...part } : tax)) });
  return (
    <>
      {taxes.map(({ label, rate }, index) => (
        <div key={index} className="side-by-side">
          <TextField
            className="react-aria-TextField"
            value={label}
            onChange={(next) => set(index, { label: next })}
            isRequired
          >
            <Label>{words.taxLabel(index + 1)}</Label>
            <Input autoComplete="off" />
          </TextField>
          <RateField
            label={words.taxRate(index + 1)}
            value={rate}
            onChange={(next) => set(index, { rate: next })}
          />
          {taxes.length > 1 && (
            <Button
              className="key"
              aria-label={words.removeTax(label)}
              onPress={() => change({ taxes: taxes.filter((_, at) => at !== index) })}
            >
              ×
            </Button>
          )}
        </div>
      ))}
      {taxes.length < most && (
        <Button
          className="key"
          onPress={() => change({ taxes: [...taxes, { label: '', rate: '' }] })}
        >
          {words.addTax}
        </Button>
      )}
    </>
  );
}
