/** Whose hands are at the bench, and how to change them in two taps. */
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { texts } from '../shell/texts.js';
import { useHands, useSigning } from './session.js';

/** The key with the name; those who signed in today take over without a PIN. */
export function HandsKey({ onSomebodyElse }: { onSomebodyElse: () => void }) {
  const { at, others } = useHands();
  const { takeOver, signOut } = useSigning();
  const rest = others.filter((person) => person.id !== at?.id);
  return (
    <MenuTrigger>
      <Button className="key" aria-label={texts.signIn.hands(at?.name ?? '')}>
        {at?.name}
        {at?.unconfirmed && <small> {texts.signIn.unconfirmed}</small>}
      </Button>
      <Popover className="sheet" placement="bottom end">
        <Menu
          aria-label={texts.signIn.change}
          onAction={(key) => {
            const person = rest.find((each) => each.id === key);
            if (person) takeOver(person);
            else if (key === 'out') void signOut();
            else onSomebodyElse();
          }}
        >
          {rest.map((person) => (
            <MenuItem key={person.id} id={person.id}>
              {person.name}
            </MenuItem>
          ))}
          <MenuItem id="else">{texts.signIn.somebodyElse}</MenuItem>
          <MenuItem id="out">{texts.signIn.out}</MenuItem>
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
