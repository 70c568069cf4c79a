/** What the scale saw and only the person can explain. */
import { Button } from 'react-aria-components';
import { useState } from 'react';
import { useProducts } from '../catalogue/catalogue.js';
import { benchScale } from '../scales/bench-scale.js';
import { weight } from '../shell/figures.js';
import { texts } from '../shell/texts.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { ChooseProduct } from './choose-product.js';
import type { Question } from './in-hand.js';

const { pour: words } = texts;

/** One question with its keys. */
export function Questions({ question, hand }: { question: Question; hand: BowlInHand }) {
  const [naming, name] = useState(false);
  const products = useProducts().inOrder;
  const { text, keys } = asked(question, hand, () => name(true));
  return (
    <section className="question" role="alert">
      <p>{text}</p>
      <div className="keys">
        {keys.map(([label, act]) => (
          <Button key={label} className="key" onPress={act}>
            {label}
          </Button>
        ))}
      </div>
      {naming && (
        <ChooseProduct
          products={products}
          onClose={() => name(false)}
          onChoose={(productId) => {
            name(false);
            hand.nameRise(productId, question.grams);
          }}
        />
      )}
    </section>
  );
}

type Key = readonly [string, () => void];

function asked(
  { type, grams }: Question,
  hand: BowlInHand,
  nameIt: () => void,
): { text: string; keys: readonly Key[] } {
  const figure = weight(grams);
  const tell = (event: 'carry_on' | 'it_was_lifted' | 'leave_residue') => () => {
    benchScale.send({ type: event });
    hand.answered();
  };
  const done = () => hand.answered();
  switch (type) {
    case 'taken_out':
      return {
        text: words.takenOut(figure),
        keys: [
          [words.ontoHead, () => hand.ontoTheHead()],
          [words.leaveIt, done],
        ],
      };
    case 'unasked_rise':
      return {
        text: words.rise(figure),
        keys: [
          [words.chooseProduct, nameIt],
          [words.noPour, done],
        ],
      };
    case 'zero_pressed':
      return {
        text: words.zero(figure),
        keys: [
          [words.carryOn, tell('carry_on')],
          [words.lifted, tell('it_was_lifted')],
        ],
      };
    case 'residue':
      return { text: words.residue(figure), keys: [[words.leaveResidue, tell('leave_residue')]] };
  }
}
