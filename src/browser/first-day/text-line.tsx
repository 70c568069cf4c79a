/** One line of text with its label, and a sentence below it where it cannot stay as it is. */
import { FieldError, Input, Label, TextField, type TextFieldProps } from 'react-aria-components';

/** The field; `trouble` is the sentence, empty while all is well. */
export function TextLine(
  props: Omit<TextFieldProps, 'onChange' | 'value'> & {
    label: string;
    value: string;
    onChange: (text: string) => void;
    trouble?: string;
    inputMode?: 'numeric' | 'decimal' | 'text';
    maxLength?: number;
    isLabelHidden?: boolean;
  },
) {
  const { label, trouble = '', inputMode = 'text', maxLength, isLabelHidden, ...field } = props;
  return (
    <TextField
      className="react-aria-TextField"
      {...field}
      isInvalid={trouble !== ''}
      validationBehavior="aria"
    >
      <Label className={isLabelHidden === true ? 'hidden' : ''}>{label}</Label>
      <Input inputMode={inputMode} maxLength={maxLength} autoComplete="off" />
      <FieldError>{trouble}</FieldError>
    </TextField>
  );
}
