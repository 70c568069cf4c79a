/** The third page: what is on the shelf, one product after the other; skipped ones come later. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { ShelfItemView } from '../../../shared/contract/stock.js';
import { productInWords } from '../catalogue/product-field.js';
import { useProducts } from '../catalogue/catalogue.js';
import { quantity } from '../shell/figures.js';
import { addressOf } from '../shell/place.js';
import { useShelf } from './shelf.js';
import { ShelfForm } from './shelf-form.js';
import { words } from './texts.js';

const { shelf } = words;

/** The page. */
export default function ShelfPage() {
  const items = useShelf();
  const products = useProducts().inOrder;
  const [chosen, choose] = useState<string>();
  const [later, putOff] = useState<readonly string[]>([]);
  if (!items) return null;
  const entered = new Set(items.filter((item) => item.entered).map((item) => item.productId));
  const open = products.filter(({ id, kind }) => kind !== 'water' && !entered.has(id));
  const inTurn = [
    ...open.filter(({ id }) => !later.includes(id)),
    ...open.filter(({ id }) => later.includes(id)),
  ];
  const product = inTurn.find(({ id }) => id === chosen) ?? inTurn[0];
  return (
    <div className="two-pages">
      <section className="page" aria-labelledby="shelf-product">
        {product ? (
          <ShelfForm
            key={product.id}
            product={product}
            onLater={() => {
              choose(undefined);
              putOff([...later.filter((id) => id !== product.id), product.id]);
            }}
            onDone={() => choose(undefined)}
          />
        ) : (
          <AllThere products={products.length} />
        )}
      </section>
      <section className="page" aria-labelledby="still-title">
        <h2 id="still-title">{shelf.still(open.length)}</h2>
        <ul className="plain lines short">
          {inTurn.map((each) => (
            <li key={each.id}>
              <Button
                className="line-key"
                aria-current={each.id === product?.id}
                onPress={() => choose(each.id)}
              >
                {productInWords(each)}
              </Button>
            </li>
          ))}
        </ul>
        <OnTheShelf items={items.filter((item) => item.entered)} />
      </section>
    </div>
  );
}

function AllThere({ products }: { products: number }) {
  return (
    <>
      <h1 id="shelf-product">{products === 0 ? shelf.noProducts : shelf.all}</h1>
      <div className="keys">
        <a
          className="key strong"
          href={addressOf('first-day', products === 0 ? 'products' : 'menu')}
        >
          {products === 0 ? words.products.title : shelf.toMenu}
        </a>
        <a className="key" href={addressOf('shelf')}>
          {shelf.toShelf}
        </a>
      </div>
    </>
  );
}

function OnTheShelf({ items }: { items: readonly ShelfItemView[] }) {
  if (items.length === 0) return null;
  return (
    <>
      <h2>{shelf.there(items.length)}</h2>
      <ul className="plain">
        {items.map((item) => (
          <li key={item.productId}>
            {item.name} <strong>{quantity(item.onHand.quantity, item.onHand.unit)}</strong>
          </li>
        ))}
      </ul>
    </>
  );
}
