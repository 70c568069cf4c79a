/** One of a few, as keys side by side. */
import { Label, Radio, RadioGroup } from 'react-aria-components';

/** A choice among a few words; all of them stay in sight. */
export function Choice<T extends string>(props: {
  label: string;
  value: T | undefined;
  options: readonly { value: T; text: string }[];
  onChoose: (value: T) => void;
}) {
  return (
    <RadioGroup
      className="choice"
      value={props.value ?? null}
      onChange={(value) => props.onChoose(value as T)}
      orientation="horizontal"
    >
      <Label>{props.label}</Label>
      <div className="options">
        {props.options.map(({ value, text }) => (
          <Radio key={value} value={value} className="key">
            {text}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}
