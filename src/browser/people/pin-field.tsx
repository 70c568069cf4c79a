/** A PIN that is given to somebody: digits only, shown while they are typed. */
import { Input, Label, TextField } from 'react-aria-components';

const mostDigits = 8;

/** The field; it takes 4 to 8 digits. */
export function PinField(props: { label: string; value: string; onChange: (pin: string) => void }) {
  return (
    <TextField
      className="react-aria-TextField"
      value={props.value}
      onChange={(text) => props.onChange(text.replace(/\D/g, '').slice(0, mostDigits))}
    >
      <Label>{props.label}</Label>
      <Input inputMode="numeric" autoComplete="off" />
    </TextField>
  );
}
