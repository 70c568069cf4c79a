/** A settled bowl: what went onto the head, what was left, product by product. */
import { useEffect, useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { SettlementAnswer } from '../../../shared/contract/bowls.js';
import { nameOf } from '../../../shared/mix.js';
import { outbox } from '../api/outbox.js';
import { useProducts } from '../catalogue/catalogue.js';
import { quantity } from '../shell/figures.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { bowlInWords } from './bowl-lines.js';
import { productIn } from './next.js';
import type { Sheet } from './sheet.js';
import { sheets } from './sheets.js';

const { left: words } = texts;
/** So long the person can say that it was another bowl. */
const undoMs = 10_000;

/** The summary; what it was worth is not told at the bench. */
export function SettledView({ sheet, settled }: { sheet: Sheet; settled: SettlementAnswer }) {
  const products = useProducts().byId;
  const [fresh, setFresh] = useState(true);
  useEffect(() => {
    const timer = setTimeout(() => setFresh(false), undoMs);
    return () => clearTimeout(timer);
  }, []);
  return (
    <section className="page narrow" aria-labelledby="settled-title">
      <h1 id="settled-title">
        {words.settled} <small>{bowlInWords(sheet)}</small>
      </h1>
      <p className="sum" role="status">
        {words.summary(settled.applied.quantity, settled.wasted.quantity)}
      </p>
      <p>
        {settled.estimated ? words.estimated : words.shareLeft(settled.wasteShare)}{' '}
        {settled.pours.length === 0 && words.sending}
      </p>
      {settled.pours.length > 0 && (
        <table className="book">
          <thead>
            <tr>
              <th scope="col">{texts.plan.product}</th>
              <th scope="col">{words.applied}</th>
              <th scope="col">{words.wasted}</th>
            </tr>
          </thead>
          <tbody>
            {settled.pours.map((pour) => (
              <tr key={pour.pourId}>
                <th scope="row">{nameOf(productIn(products, pour.productId))}</th>
                <td>{quantity(pour.applied.quantity, pour.applied.unit)}</td>
                <td>{quantity(pour.wasted.quantity, pour.wasted.unit)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="quiet">{words.never}</p>
      <div className="keys">
        <Button className="key strong" onPress={() => goTo('bench')}>
          {texts.pour.back}
        </Button>
        {fresh && (
          <Button className="key" onPress={() => void undo(sheet)}>
            {words.notThis}
          </Button>
        )}
      </div>
    </section>
  );
}

/** A settlement that was never sent is taken back; another one is reversed. */
async function undo(sheet: Sheet): Promise<void> {
  sheets.put({ ...sheet, settled: null });
  // the bowl may still stand on the plate: the bench asks which one it is
  goTo('bench');
  const settlement = outbox.all().findLast(({ path }) => path === `/bowls/${sheet.id}/settlement`);
  if (settlement && (await outbox.takeBack(settlement.id))) return;
  const id = uuidv7();
  const path = `/bowls/${sheet.id}/reversal`;
  const what = texts.bookings.undo(sheet.purpose);
  await outbox.post({ id, method: 'POST', path, body: { id }, what });
}
