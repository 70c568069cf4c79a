/** A key that opens the menu's services: one tap says what words mean. */
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import { texts } from './texts.js';

/** The key with its list. */
export function MeaningKey(props: {
  label: string;
  text?: string;
  menu: readonly ServiceView[];
  onChoose: (serviceId: string) => void;
}) {
  return (
    <MenuTrigger>
      <Button className="key" aria-label={props.label}>
        {props.text ?? texts.words.meaning} ▾
      </Button>
      <Popover className="sheet list">
        <Menu aria-label={props.label} onAction={(key) => props.onChoose(String(key))}>
          {props.menu.map(({ id, name }) => (
            <MenuItem key={id} id={id}>
              {name}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
