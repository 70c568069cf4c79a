/** One product on the shelf: sealed packs, a started one on the scale, what a pack costs. */
import { useState } from 'react';
import { Button, Form } from 'react-aria-components';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { canonical, zero } from '../../../shared/decimal.js';
import type { SupplierPrices } from '../../../shared/supplier-prices.js';
import { productInWords } from '../catalogue/product-field.js';
import { useStudio } from '../catalogue/catalogue.js';
import { Choice } from '../shell/choice.js';
import { quantity } from '../shell/figures.js';
import { forgetKept, useKept } from './kept.js';
import { foundOn, freshEntry, waysOf, type ShelfEntry } from './shelf-entry.js';
import { useOpeningStock } from './shelf.js';
import { StartedPack } from './started-pack.js';
import { TextLine } from './text-line.js';
import { words } from './texts.js';

const { shelf } = words;
const untaxed: SupplierPrices = { are: 'without tax', taxRate: null };

/** The form; what is typed of a product is kept until it is on the shelf. */
export function ShelfForm(props: {
  product: ProductView;
  onLater: () => void;
  onDone: () => void;
}) {
  const { product } = props;
  const studio = useStudio();
  const prices = studio?.supplierPrices ?? untaxed;
  const ways = waysOf(product);
  const keptAs = `shelf.${product.id}`;
  const [entry, keep] = useKept<ShelfEntry>(keptAs, { ...freshEntry, started: ways[0] ?? 'none' });
  const [trouble, setTrouble] = useState('');
  const book = useOpeningStock();
  const found = foundOn(entry, product, prices);
  const change = (part: Partial<ShelfEntry>) => {
    setTrouble('');
    keep((before) => ({ ...before, ...part }));
  };
  const put = async (isNone: boolean) => {
    if (isNone) await book(product, nothingThere);
    else if (typeof found === 'string') throw new Error(found);
    else if (found.quantity.isZero()) throw new Error(shelf.nothingTyped);
    else await book(product, found);
    forgetKept(keptAs);
    props.onDone();
  };
  const tell = (error: Error) => setTrouble(error.message);
  return (
    <Form
      onSubmit={(event) => {
        event.preventDefault();
        void put(false).catch(tell);
      }}
    >
      <h1 id="shelf-product">{productInWords(product)}</h1>
      <Fields {...{ product, entry, change, ways, prices }} currency={studio?.currency ?? ''} />
      <p role="status">
        {typeof found === 'string' || found.quantity.isZero()
          ? ''
          : shelf.comesTo(quantity(canonical(found.quantity), product.unit))}
      </p>
      <p role="alert">{trouble}</p>
      <div className="keys">
        <Button className="key strong" type="submit">
          {shelf.put}
        </Button>
        <Button className="key" onPress={() => void put(true).catch(tell)}>
          {shelf.none}
        </Button>
        <Button className="key" onPress={props.onLater}>
          {shelf.later}
        </Button>
      </div>
    </Form>
  );
}

const nothingThere = {
  ...{ quantity: zero, cost: undefined, listPrice: undefined, emptyGrams: undefined },
};

interface FieldsProps {
  readonly product: ProductView;
  readonly entry: ShelfEntry;
  readonly change: (part: Partial<ShelfEntry>) => void;
  readonly ways: readonly ShelfEntry['started'][];
  readonly prices: SupplierPrices;
  readonly currency: string;
}

function Fields({ product, entry, change, ways, prices, currency }: FieldsProps) {
  const [pack] = product.packs;
  if (!pack) {
    return (
      <TextLine
        label={shelf.looseOf(product.unit)}
        value={entry.loose}
        onChange={(loose) => change({ loose })}
        inputMode="decimal"
        autoFocus
      />
    );
  }
  return (
    <>
      <div className="fields">
        <TextLine
          label={shelf.sealed(pack.label)}
          value={entry.sealed}
          onChange={(sealed) => change({ sealed })}
          inputMode="numeric"
          autoFocus
        />
        <TextLine
          label={shelf.price(pack.label, currency)}
          value={entry.price}
          onChange={(price) => change({ price })}
          inputMode="decimal"
        />
      </div>
      <p className="quiet">
        {pack.listPrice ? shelf.listed(pack.listPrice, currency) : shelf.pricesAre[prices.are]}
      </p>
      <Choice
        label={shelf.started}
        value={entry.started}
        options={ways.map((value) => ({ value, text: shelf.ways[value] }))}
        onChoose={(started) => change({ started })}
      />
      {entry.started === 'loose' && (
        <TextLine
          label={shelf.looseOf(product.unit)}
          value={entry.loose}
          onChange={(loose) => change({ loose })}
          inputMode="decimal"
        />
      )}
      {entry.started === 'weighed' && <StartedPack {...{ entry, change, pack }} />}
    </>
  );
}
