/** What was used beside the bowls: the kits of the services, changed in steps, or added to. */
import { Button } from 'react-aria-components';
import { canonical, count, decimal, larger, zero } from '../../../shared/decimal.js';
import { useProducts } from '../catalogue/catalogue.js';
import { ProductField } from '../catalogue/product-field.js';
import type { Closing, UsedLine } from './closing-state.js';
import { countInWords } from './money.js';
import { texts } from './texts.js';

const { closing: words } = texts;
const kinds: ReadonlySet<string> = new Set(['sundry', 'care']);

/** A line a product; `proposed` is what the kits say. */
export function ClosingKit(props: {
  closing: Closing;
  proposed: readonly UsedLine[];
  change: (part: Partial<Closing>) => void;
}) {
  const products = useProducts();
  const lines = props.closing.uses ?? props.proposed;
  const nameOf = (id: string) => products.inOrder.find((each) => each.id === id)?.name ?? '';
  const set = (productId: string, next: string) =>
    props.change({
      uses: lines
        .map((line) => (line.productId === productId ? { ...line, quantity: next } : line))
        .filter((line) => line.quantity !== '0'),
    });
  const addable = products.inOrder.filter(
    ({ id, kind }) => kinds.has(kind) && !lines.some(({ productId }) => productId === id),
  );
  return (
    <fieldset className="book-lines">
      <legend>{words.kit}</legend>
      <p className="quiet">{words.kitHow}</p>
      {lines.length === 0 && <p>{words.noKit}</p>}
      {lines.map((line) => (
        <KitLine
          key={line.productId}
          line={line}
          name={nameOf(line.productId)}
          onChange={(next) => set(line.productId, next)}
        />
      ))}
      <ProductField
        key={lines.length}
        label={words.addProduct}
        products={addable}
        onChoose={(productId) => {
          const unit = products.inOrder.find(({ id }) => id === productId)?.unit ?? 'piece';
          props.change({ uses: [...lines, { productId, quantity: '1', unit }] });
        }}
      />
    </fieldset>
  );
}

function KitLine(props: { line: UsedLine; name: string; onChange: (quantity: string) => void }) {
  const { line, name } = props;
  const value = decimal(line.quantity);
  const step = count(value.greaterThanOrEqualTo(20) ? 5 : 1);
  return (
    <div className="book-line">
      <span className="grow">{name}</span>
      <Button
        className="key"
        aria-label={words.less(step.toFixed(), name)}
        onPress={() => props.onChange(canonical(larger(value.minus(step), zero)))}
      >
        −{step.toFixed()}
      </Button>
      <output className="figure">{countInWords(line.quantity, line.unit)}</output>
      <Button
        className="key"
        aria-label={words.plus(step.toFixed(), name)}
        onPress={() => props.onChange(canonical(value.plus(step)))}
      >
        +{step.toFixed()}
      </Button>
    </div>
  );
}
