/** The page under the beam: product, due, poured, difference; a tap on a line pours it now. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { nameOf } from '../../../shared/mix.js';
import { useProducts } from '../catalogue/catalogue.js';
import { placesOf, weight, weightFigure, weightUnit } from '../shell/figures.js';
import { benchScale } from '../scales/bench-scale.js';
import { texts } from '../shell/texts.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { ChooseProduct } from './choose-product.js';
import type { Next, PageLine } from './next.js';
import type { SheetPour } from './sheet.js';

const { pour: words } = texts;

/** The lines of the bowl. */
export function PourPage({ next, hand }: { next: Next; hand: BowlInHand }) {
  const [wrong, setWrong] = useState<SheetPour>();
  const products = useProducts().inOrder;
  return (
    <>
      <table className="book">
        <thead>
          <tr>
            <th scope="col">{words.product}</th>
            <th scope="col">
              {words.due} <small>{weightUnit()}</small>
            </th>
            <th scope="col">
              {words.pouredColumn} <small>{weightUnit()}</small>
            </th>
            <th scope="col">{words.difference}</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {next.lines.map((line) => (
            <Line
              key={line.product.id}
              line={line}
              isDue={line.product.id === next.due?.product.id}
              onPour={() => hand.pourNow(line.product.id)}
              onOther={setWrong}
            />
          ))}
        </tbody>
      </table>
      {wrong && (
        <ChooseProduct
          products={products.filter(({ id }) => id !== wrong.productId)}
          onClose={() => setWrong(undefined)}
          onChoose={(productId) => {
            setWrong(undefined);
            hand.otherProduct(wrong, productId);
          }}
        />
      )}
    </>
  );
}

function Line(props: {
  line: PageLine;
  isDue: boolean;
  onPour: () => void;
  onOther: (pour: SheetPour) => void;
}) {
  const { line, isDue } = props;
  const places = placesOf(benchScale.weighing.get().intervalGrams);
  const name = nameOf(line.product);
  const last = line.pours.at(-1);
  return (
    <tr aria-current={isDue ? 'step' : undefined}>
      <th scope="row">
        {isDue && <span className="pointer">{words.now}</span>} {name}
      </th>
      <td>{line.due ? weightFigure(line.due, places) : ''}</td>
      <td>{last ? weightFigure(line.poured, places) : ''}</td>
      <td>{last ? difference(line, places) : ''}</td>
      <td className="act">
        {last ? (
          <Button
            className="key"
            aria-label={words.otherOf(name, weight(last.grams))}
            onPress={() => props.onOther(last)}
          >
            {words.otherShort}
          </Button>
        ) : (
          !isDue && (
            <Button className="key" aria-label={words.pourNow(name)} onPress={props.onPour}>
              {words.now}
            </Button>
          )
        )}
      </td>
    </tr>
  );
}

/** "in the notch", "3 over", "18 to go" against what is due now. */
function difference({ due, poured, state }: PageLine, places: number): string {
  if (due === null) return '';
  const off = weightFigure(poured.minus(due).abs(), places);
  if (state === 'to go') return `${off} ${words.toGo}`;
  if (state === 'in the notch') return words.inNotch;
  return `${off} ${words.over}`;
}
