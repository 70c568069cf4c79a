/** A rate or an amount that is typed; what cannot be read is said below it. */
import { FieldError, Input, Label, TextField } from 'react-aria-components';
import { readRate } from './rules-state.js';
import { texts } from './texts.js';

/** The field; empty is no fault. */
export function RateField(props: {
  label: string;
  value: string;
  onChange: (text: string) => void;
  /** The label is said, not shown: it stands in the head of a table. */
  isLabelHidden?: boolean;
}) {
  const isWrong = props.value.trim() !== '' && !readRate(props.value);
  return (
    <TextField
      className="react-aria-TextField figure-field"
      value={props.value}
      onChange={props.onChange}
      isInvalid={isWrong}
      validationBehavior="aria"
    >
      <Label className={props.isLabelHidden === true ? 'hidden' : ''}>{props.label}</Label>
      <Input inputMode="decimal" autoComplete="off" />
      <FieldError>{texts.target.figure}</FieldError>
    </TextField>
  );
}
