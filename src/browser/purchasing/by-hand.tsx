/** What a person has left out of the plan, and a field to order something that is not in it. */
import { Button } from 'react-aria-components';
import type { OrderPlanView } from '../../../shared/contract/purchasing.js';
import { useProducts } from '../catalogue/catalogue.js';
import { ProductField } from '../catalogue/product-field.js';
import type { KeptPacks, Wish } from './order-plan.js';
import type { ColumnName } from './slips.js';
import { texts } from './texts.js';

const { plan: words } = texts;

/** Lines for packs set to none, and the field. */
export function ByHand(props: {
  plan: OrderPlanView;
  column: ColumnName;
  wish: Wish;
  onKeep: (kept: KeptPacks) => void;
  onLetGo: (kept: KeptPacks) => void;
}) {
  const { plan, column, wish } = props;
  const { inOrder } = useProducts();
  const nameOf = (id: string) => inOrder.find((product) => product.id === id)?.name ?? '';
  const leftOut = wish.keep.filter(({ packs }) => packs === 0);
  const there = new Set(plan[column].lines.map(({ productId }) => productId));
  const addable = inOrder.filter(({ id, packs }) => packs.length > 0 && !there.has(id));
  return (
    <div className="by-hand">
      {leftOut.map((kept) => (
        <div key={`${kept.productId} ${kept.packLabel}`} className="book-line">
          <span className="grow">
            {nameOf(kept.productId)}, {kept.packLabel}: {words.none}
          </span>
          <Button
            className="key"
            aria-label={words.asPlannedOf(nameOf(kept.productId))}
            onPress={() => props.onLetGo(kept)}
          >
            {words.asPlanned}
          </Button>
        </div>
      ))}
      <ProductField
        key={there.size}
        label={words.add}
        products={addable}
        onChoose={(productId) => {
          const pack = inOrder.find(({ id }) => id === productId)?.packs[0];
          if (pack) props.onKeep({ productId, packLabel: pack.label, packs: 1 });
        }}
      />
    </div>
  );
}
