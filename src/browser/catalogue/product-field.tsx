/** A product by type-ahead: poured lately here first, then whatever the letters find. */
import {
  Button,
  ComboBox,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
} from 'react-aria-components';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { vol } from '../shell/figures.js';
import { lately } from './lately.js';

/** A product as one line: its name, its line, its strength. */
export function productInWords(product: ProductView): string {
  const strength = product.strength === null ? null : vol(product.strength);
  const more = [
    product.name.includes(product.strength ?? '') ? null : strength,
    product.name.includes(product.line ?? '') ? null : product.line,
  ];
  return [product.name, ...more].filter(Boolean).join(', ');
}

/** A field that chooses one of `products`. */
export function ProductField(props: {
  label: string;
  products: readonly ProductView[];
  onChoose: (productId: string) => void;
  autoFocus?: boolean;
}) {
  const recent = lately();
  const rank = (id: string) => {
    const at = recent.indexOf(id);
    return at < 0 ? recent.length : at;
  };
  const items = props.products.toSorted((a, b) => rank(a.id) - rank(b.id));
  return (
    <ComboBox
      className="product-field"
      defaultItems={items}
      value={null}
      onChange={(key) => {
        if (typeof key === 'string') props.onChoose(key);
      }}
      menuTrigger="focus"
      autoFocus={props.autoFocus ?? false}
    >
      <Label>{props.label}</Label>
      <div className="with-key">
        <Input />
        <Button className="key">▾</Button>
      </div>
      <Popover className="sheet list">
        <ListBox>
          {(product: ProductView) => (
            <ListBoxItem id={product.id} textValue={productInWords(product)}>
              {productInWords(product)}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
