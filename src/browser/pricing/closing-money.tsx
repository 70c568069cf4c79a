/** Discount, what was paid before, how it is paid, tip. */
import { FieldError, Input, Label, TextField } from 'react-aria-components';
import { Choice } from '../shell/choice.js';
import { readFigure } from '../shell/figures.js';
import type { Closing } from './closing-state.js';
import { texts } from './texts.js';

const { closing: words } = texts;
const discounts = ['none', 'share', 'amount'] as const;
const ofs = ['menu', 'all'] as const;
const methods = ['card', 'cash', 'other', 'later'] as const;

/** The fields of money. */
export function ClosingMoney(props: {
  closing: Closing;
  currency: string;
  change: (part: Partial<Closing>) => void;
}) {
  const { closing, change, currency } = props;
  return (
    <>
      <Choice
        label={words.discount}
        value={closing.discount}
        options={discounts.map((value) => ({ value, text: words.discounts[value] }))}
        onChoose={(discount) => change({ discount })}
      />
      {closing.discount !== 'none' && (
        <div className="side-by-side">
          <Figure
            label={
              closing.discount === 'share'
                ? words.discountField.share
                : `${words.discountField.amount}, ${currency}`
            }
            value={closing.discountTyped}
            onChange={(discountTyped) => change({ discountTyped })}
          />
          <Choice
            label={words.of}
            value={closing.discountOf}
            options={ofs.map((value) => ({ value, text: words.ofs[value] }))}
            onChoose={(discountOf) => change({ discountOf })}
          />
        </div>
      )}
      <Choice
        label={words.payment}
        value={closing.paidBy}
        options={methods.map((value) => ({ value, text: words.methods[value] }))}
        onChoose={(paidBy) => change({ paidBy })}
      />
      <div className="side-by-side">
        <Figure
          label={`${words.deposit}, ${currency}`}
          value={closing.depositTyped}
          onChange={(depositTyped) => change({ depositTyped })}
        />
        <Figure
          label={`${words.tip}, ${currency}`}
          value={closing.tipTyped}
          onChange={(tipTyped) => change({ tipTyped })}
        />
      </div>
    </>
  );
}

/** A figure that may stay empty; what cannot be read is said below it. */
export function Figure(props: { label: string; value: string; onChange: (text: string) => void }) {
  const wrong = props.value.trim() !== '' && !readFigure(props.value);
  return (
    <TextField
      className="react-aria-TextField figure-field"
      value={props.value}
      onChange={props.onChange}
      isInvalid={wrong}
      validationBehavior="aria"
    >
      <Label>{props.label}</Label>
      <Input inputMode="decimal" autoComplete="off" />
      <FieldError>{texts.target.figure}</FieldError>
    </TextField>
  );
}
