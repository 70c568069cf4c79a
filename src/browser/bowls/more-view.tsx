/** A bit more, or thinner: weighed first, then added to what the bowl holds now. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { canonical, decimal, larger, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { nameOf } from '../../../shared/mix.js';
import { useProducts, useStudio } from '../catalogue/catalogue.js';
import { weight } from '../shell/figures.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { isPowder, mixAsPoured } from './as-poured.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { ageInWords, bowlInWords } from './bowl-lines.js';
import { planOf } from './draft.js';
import { plannedViews, type MixJson } from './mix-json.js';
import { productIn } from './next.js';
import { Size } from './plan-fields.js';
import { contentsByProduct, type Sheet } from './sheet.js';
import { WeighNow } from './weigh-now.js';

const { more: words } = texts;
const ratios = ['1', '1.5', '2', '2.5', '3', '4'] as const;

/** The view: weigh, then choose what to add. */
export default function MoreView({ sheet, hand }: { sheet: Sheet; hand: BowlInHand }) {
  const [net, setNet] = useState<Decimal>();
  const back = () => goTo('bowl', sheet.id);
  return (
    <section className="page narrow" aria-labelledby="more-title">
      <h1 id="more-title">
        {words.title} <small>{bowlInWords(sheet)}</small>
      </h1>
      {net ? (
        <>
          <p>
            {words.holds(weight(net))} {sheet.firstContactAt && words.oldest(ageInWords(sheet))}
          </p>
          <MoreOfTheSame sheet={sheet} hand={hand} onDone={back} />
          <Thinner sheet={sheet} hand={hand} onDone={back} />
        </>
      ) : (
        <>
          <p>{words.how}</p>
          <WeighNow
            hand={hand}
            onWeight={(grams) => {
              hand.weighed(grams);
              setNet(grams);
            }}
          />
        </>
      )}
      <Button className="key" onPress={back}>
        {texts.cancel}
      </Button>
    </section>
  );
}

interface Part {
  readonly sheet: Sheet;
  readonly hand: BowlInHand;
  readonly onDone: () => void;
}

function MoreOfTheSame({ sheet, hand, onDone }: Part) {
  const [grams, setGrams] = useState(decimal('20'));
  const products = useProducts();
  const country = useStudio()?.country ?? undefined;
  const parts = [...contentsByProduct(sheet)].map(([productId, held]) => ({
    ...{ productId, grams: held, kind: productIn(products.byId, productId).kind },
  }));
  const before = sheet.request ?? mixAsPoured(parts);
  if (!before) return null;
  const same = withoutAdditives(before);
  const request = { ...same, size: { total: { quantity: canonical(grams), unit: 'g' as const } } };
  const plan = planOf(request, products.byId, country);
  return (
    <fieldset className="book-lines">
      <legend>{words.same}</legend>
      <Size grams={grams} onChange={setGrams} />
      {typeof plan === 'string' ? (
        <p>{plan}</p>
      ) : (
        <Button
          className="key strong"
          onPress={() => {
            hand.planAnew({ request, planned: plannedViews(plan) });
            onDone();
          }}
        >
          {words.sameHow(weight(grams))}
        </Button>
      )}
      <p className="quiet">{words.dose}</p>
    </fieldset>
  );
}

function Thinner({ sheet, hand, onDone }: Part) {
  const { byId } = useProducts();
  const parts = [...contentsByProduct(sheet)].map(([id, grams]) => ({
    product: productIn(byId, id),
    grams,
  }));
  const wet = parts.filter(({ product }) => product.kind === 'developer');
  const dry = parts.filter(({ product }) => isPowder(product.kind));
  const powder = sum(dry.map(({ grams }) => grams));
  const developer = sum(wet.map(({ grams }) => grams));
  const strongest = wet.toSorted((a, b) => b.grams.comparedTo(a.grams))[0];
  const steps = ratios
    .map((ratio) => ({ ratio, grams: larger(zero, powder.times(ratio).minus(developer)) }))
    .filter(({ grams }) => grams.greaterThanOrEqualTo(1))
    .slice(0, 3);
  if (!strongest || steps.length === 0) return null;
  return (
    <fieldset className="book-lines">
      <legend>{words.thin}</legend>
      <div className="keys">
        {steps.map(({ ratio, grams }) => (
          <Button
            key={ratio}
            className="key"
            onPress={() => {
              hand.pourExtra(strongest.product.id, grams.toDecimalPlaces(1));
              onDone();
            }}
          >
            {words.thinTo(`1 : ${ratio}`)}:{' '}
            {words.thinHow(weight(grams), nameOf(strongest.product))}
          </Button>
        ))}
      </div>
    </fieldset>
  );
}

/** One dose a bowl: what was added beside the ratio is not added again. */
function withoutAdditives(mix: Omit<MixJson, 'size'>): Omit<MixJson, 'size' | 'additives'> {
  const same = { ...mix };
  delete (same as { additives?: unknown }).additives;
  return same;
}
