/** The fields of a version of a service: price, minutes, what goes with it, what is within. */
import { Button } from 'react-aria-components';
import { useProducts } from '../catalogue/catalogue.js';
import { ProductField } from '../catalogue/product-field.js';
import { Choice } from '../shell/choice.js';
import { words } from './menu-texts.js';
import { kindsLeft, type TypedKind, type TypedService } from './menu-state.js';
import { RateField } from './rate-field.js';
import { optionsOf } from './rules-tax.js';

interface FieldsPart {
  readonly typed: TypedService;
  readonly currency: string;
  readonly change: (part: Partial<TypedService>) => void;
}

/** All fields. */
export function MenuFields(part: FieldsPart) {
  const { typed, currency, change } = part;
  return (
    <>
      <div className="side-by-side">
        <RateField
          label={words.priceField(currency)}
          value={typed.price}
          onChange={(price) => change({ price })}
        />
        <RateField
          label={words.handsOn}
          value={typed.handsOn}
          onChange={(handsOn) => change({ handsOn })}
        />
        <RateField
          label={words.chair}
          value={typed.chair}
          onChange={(chair) => change({ chair })}
        />
      </div>
      <Kit {...part} />
      <Kinds {...part} />
    </>
  );
}

function Kit({ typed, change }: FieldsPart) {
  const products = useProducts();
  const nameOf = (id: string) => products.inOrder.find((each) => each.id === id)?.name ?? '';
  const left = products.inOrder.filter(
    ({ id }) => !typed.kit.some(({ productId }) => productId === id),
  );
  return (
    <fieldset className="book-lines">
      <legend>{words.kit}</legend>
      {typed.kit.map((item, at) => (
        <div key={item.productId} className="book-line">
          <span className="grow">
            {nameOf(item.productId)}, {item.unit}
          </span>
          <RateField
            isLabelHidden
            label={words.quantityOf(nameOf(item.productId))}
            value={item.quantity}
            onChange={(quantity) => change({ kit: typed.kit.with(at, { ...item, quantity }) })}
          />
          <Button
            className="key"
            aria-label={words.takeOff(nameOf(item.productId))}
            onPress={() => change({ kit: typed.kit.filter((each) => each !== item) })}
          >
            {words.off}
          </Button>
        </div>
      ))}
      <ProductField
        key={typed.kit.length}
        label={words.addKit}
        products={left}
        onChoose={(productId) => {
          const unit = products.inOrder.find(({ id }) => id === productId)?.unit ?? 'piece';
          change({ kit: [...typed.kit, { productId, quantity: '1', unit }] });
        }}
      />
    </fieldset>
  );
}

function Kinds({ typed, change }: FieldsPart) {
  const set = (at: number, part: Partial<TypedKind>) => {
    const before = typed.kinds[at];
    if (before) change({ kinds: typed.kinds.with(at, { ...before, ...part }) });
  };
  return (
    <fieldset className="book-lines">
      <legend>{words.product}</legend>
      {typed.kinds.map((kind, at) => (
        <Kind
          key={kind.kind}
          of={kind}
          onChange={(part) => set(at, part)}
          onOff={() => change({ kinds: typed.kinds.filter((each) => each !== kind) })}
        />
      ))}
      <div className="small-keys">
        {kindsLeft(typed).map((kind) => (
          <Button
            key={kind}
            className="key"
            onPress={() =>
              change({
                kinds: [...typed.kinds, { kind, amount: '', unit: 'g', by: 'usual', rate: '' }],
              })
            }
          >
            {words.addKind(kind)}
          </Button>
        ))}
      </div>
    </fieldset>
  );
}

function Kind(props: {
  of: TypedKind;
  onChange: (part: Partial<TypedKind>) => void;
  onOff: () => void;
}) {
  const { kind, amount, unit, by, rate } = props.of;
  return (
    <div className="side-by-side on-top kind-line">
      <RateField
        label={words.kindOf(kind)}
        value={amount}
        onChange={(next) => props.onChange({ amount: next })}
      />
      <Choice
        label={words.inUnit(kind)}
        value={unit}
        options={optionsOf(words.units)}
        onChoose={(next) => props.onChange({ unit: next })}
      />
      <Choice
        label={words.onTop(kind)}
        value={by}
        options={optionsOf(words.onTopBy)}
        onChoose={(next) => props.onChange({ by: next })}
      />
      {by !== 'usual' && (
        <RateField
          label={words.rateOf(kind)}
          value={rate}
          onChange={(next) => props.onChange({ rate: next })}
        />
      )}
      <Button className="key" aria-label={words.takeOff(kind)} onPress={props.onOff}>
        {words.off}
      </Button>
    </div>
  );
}
