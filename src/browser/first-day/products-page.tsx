/** The second page: products, many at once: ticked, pasted from a spreadsheet, or scanned. */
import { useState } from 'react';
import { useProducts } from '../catalogue/catalogue.js';
import { Choice } from '../shell/choice.js';
import { addressOf } from '../shell/place.js';
import { PastePart } from './paste-part.js';
import { ScanPart } from './scan-part.js';
import { TickPart } from './tick-part.js';
import { words } from './texts.js';

const ways = ['tick', 'paste', 'scan'] as const;

/** The page. */
export default function ProductsPage() {
  const [way, choose] = useState<(typeof ways)[number]>('tick');
  const [said, say] = useState('');
  const { inOrder } = useProducts();
  const known = new Set(inOrder.map(({ name }) => name.toLocaleLowerCase()));
  const part = {
    known,
    onEntered: (count: number) => say(words.products.entered(count)),
    onTyping: () => say(''),
  };
  return (
    <section className="page" aria-labelledby="products-title">
      <h1 id="products-title">
        {words.products.title} <small>{words.products.there(inOrder.length)}</small>
      </h1>
      <Choice
        label={words.products.way}
        value={way}
        options={ways.map((value) => ({ value, text: words.products.ways[value] }))}
        onChoose={(next) => {
          say('');
          choose(next);
        }}
      />
      <p role="status" className="said">
        {said}
      </p>
      {said !== '' && (
        <div className="keys">
          <a className="key strong" href={addressOf('first-day', 'shelf')}>
            {words.products.toShelf}
          </a>
          <a className="key" href={addressOf('bench')}>
            {words.toBench}
          </a>
        </div>
      )}
      {way === 'tick' && <TickPart {...part} />}
      {way === 'paste' && <PastePart {...part} />}
      {way === 'scan' && <ScanPart {...part} products={inOrder} />}
    </section>
  );
}
