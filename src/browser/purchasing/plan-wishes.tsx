/** What is wished of a plan: how many order days, how sure, for how much money. */
import { useState } from 'react';
import { Button, FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import { canonical } from '../../../shared/decimal.js';
import { money } from '../pricing/money.js';
import { Choice } from '../shell/choice.js';
import { readFigure } from '../shell/figures.js';
import type { Wish } from './order-plan.js';
import { texts } from './texts.js';

const { plan: words } = texts;
const days = ['1', '2', '3'] as const;
const levels = ['own', '0.9', '0.95', '0.98'] as const;

/** The wish as a sentence; a key opens the choices. */
export function PlanWishes(props: WishesProps) {
  const [isOpen, open] = useState(false);
  const { wish, currency } = props;
  const level = words.levels[wish.serviceLevel];
  const limit =
    wish.budget === undefined ? words.noBudget : words.atMost(money(wish.budget, currency));
  return (
    <>
      <div className="wish">
        <p>
          {words.wish(
            words.dayCounts[wish.orderDays],
            wish.serviceLevel === 'own' ? level : words.about(level),
            limit,
          )}
        </p>
        <Button className="key" aria-expanded={isOpen} onPress={() => open(!isOpen)}>
          {isOpen ? words.changed : words.change}
        </Button>
      </div>
      {isOpen && <Wishes {...props} />}
    </>
  );
}

interface WishesProps {
  readonly wish: Wish;
  readonly currency: string;
  readonly onWish: (change: (before: Wish) => Wish) => void;
}

/** Every choice works the plan out anew at once; the budget when it is entered. */
function Wishes(props: WishesProps) {
  const { wish, onWish } = props;
  const [typed, type] = useState(props.wish.budget ?? '');
  const budget = readFigure(typed);
  const isWrong = typed.trim() !== '' && !budget;
  return (
    <Form
      className="wishes"
      onSubmit={(event) => {
        event.preventDefault();
        if (isWrong) return;
        onWish((before) => ({ ...before, budget: budget && canonical(budget) }));
      }}
    >
      <Choice
        label={words.days}
        value={wish.orderDays}
        options={days.map((value) => ({ value, text: words.dayCounts[value] }))}
        onChoose={(orderDays) => onWish((before) => ({ ...before, orderDays }))}
      />
      <Choice
        label={words.sure}
        value={wish.serviceLevel}
        options={levels.map((value) => ({ value, text: words.levels[value] }))}
        onChoose={(serviceLevel) => onWish((before) => ({ ...before, serviceLevel }))}
      />
      <div className="side-by-side">
        <TextField
          className="react-aria-TextField figure-field"
          value={typed}
          onChange={type}
          isInvalid={isWrong}
          validationBehavior="aria"
        >
          <Label>{words.budget(props.currency)}</Label>
          <Input inputMode="decimal" autoComplete="off" />
          <FieldError>{words.figure}</FieldError>
        </TextField>
        <Button className="key" type="submit">
          {words.use}
        </Button>
      </div>
    </Form>
  );
}
