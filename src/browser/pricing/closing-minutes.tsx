/** Minutes of a visit by person and in the chair, five at a time; never from time stamps. */
import { Button } from 'react-aria-components';
import { useNames } from '../people/session.js';
import type { Closing } from './closing-state.js';
import { texts } from './texts.js';

const { closing: words } = texts;
const step = 5;

/** A line a person, and one of the chair. */
export function ClosingMinutes(props: {
  closing: Closing;
  change: (part: Partial<Closing>) => void;
}) {
  const { minutes, chairMinutes } = props.closing;
  const names = useNames().data ?? [];
  const nameOf = (id: string) => names.find((each) => each.id === id)?.name ?? words.somebodyHere;
  const others = names.filter(({ id }) => !minutes.some(({ personId }) => personId === id));
  const set = (personId: string, value: number) =>
    props.change({
      minutes: minutes
        .map((each) => (each.personId === personId ? { personId, minutes: value } : each))
        .filter((each) => each.minutes > 0),
    });
  return (
    <fieldset className="book-lines">
      <legend>{words.minutes}</legend>
      {minutes.map(({ personId, minutes: value }) => (
        <MinutesLine
          key={personId}
          what={words.handsOn(nameOf(personId))}
          value={value}
          onChange={(next) => set(personId, next)}
        />
      ))}
      <MinutesLine
        what={words.chair}
        value={chairMinutes}
        onChange={(next) => props.change({ chairMinutes: next })}
      />
      {others.length > 0 && (
        <div className="small-keys" role="group" aria-label={words.somebody}>
          <span className="quiet">{words.somebody}:</span>
          {others.map(({ id, name }) => (
            <Button
              key={id}
              className="key"
              onPress={() =>
                props.change({ minutes: [...minutes, { personId: id, minutes: step }] })
              }
            >
              + {name}
            </Button>
          ))}
        </div>
      )}
    </fieldset>
  );
}

function MinutesLine(props: { what: string; value: number; onChange: (value: number) => void }) {
  const { what, value } = props;
  return (
    <div className="book-line">
      <span className="grow">{what}</span>
      <Button
        className="key"
        aria-label={words.fewer(what)}
        isDisabled={value === 0}
        onPress={() => props.onChange(Math.max(0, value - step))}
      >
        −{step}
      </Button>
      <output className="figure">{words.minutesUnit(value)}</output>
      <Button
        className="key"
        aria-label={words.more(what)}
        onPress={() => props.onChange(value + step)}
      >
        +{step}
      </Button>
    </div>
  );
}
