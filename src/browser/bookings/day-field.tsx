/** A field for one day. */
import { Input, Label, TextField } from 'react-aria-components';

/** The field; the day as 2026-03-02, empty where there is none. */
export function DayField(props: { label: string; value: string; onChange: (day: string) => void }) {
  return (
    <TextField
      className="react-aria-TextField"
      type="date"
      value={props.value}
      onChange={props.onChange}
    >
      <Label>{props.label}</Label>
      <Input className="date" />
    </TextField>
  );
}
