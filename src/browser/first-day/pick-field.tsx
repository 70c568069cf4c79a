/** One of many, found by its first letters. */
import {
  Button,
  ComboBox,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
} from 'react-aria-components';
import type { Choosable } from './places-of-the-world.js';

/** The field; leaving it with letters that fit nothing brings back what was chosen. */
export function PickField(props: {
  label: string;
  items: readonly Choosable[];
  value: string | undefined;
  onChoose: (id: string) => void;
}) {
  return (
    <ComboBox
      className="product-field"
      defaultItems={props.items}
      value={props.value ?? null}
      onChange={(key) => {
        if (typeof key === 'string') props.onChoose(key);
      }}
    >
      <Label>{props.label}</Label>
      <div className="with-key">
        <Input />
        <Button className="key">▾</Button>
      </div>
      <Popover className="sheet list">
        <ListBox>{({ id, text }: Choosable) => <ListBoxItem id={id}>{text}</ListBoxItem>}</ListBox>
      </Popover>
    </ComboBox>
  );
}
