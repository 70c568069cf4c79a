/** Products by ticks: a list of each kind, what it makes below, entered with one key. */
import { useState } from 'react';
import { Button, Checkbox } from 'react-aria-components';
import { percentOfVolume } from '../../../shared/strength.js';
import { decimal } from '../../../shared/decimal.js';
import { number, vol } from '../shell/figures.js';
import { troubleOf } from './drafts.js';
import { useEntering } from './entering.js';
import { forgetKept, useKept } from './kept.js';
import { TextLine } from './text-line.js';
import { words } from './texts.js';
import { listed, nameOfTick, tickLists, untouched } from './tick-lists.js';
import type { AllTicked, Ticked, TickList } from './tick-lists.js';

export interface EnterPart {
  /** Names of products that are there, in small letters. */
  readonly known: ReadonlySet<string>;
  readonly onEntered: (count: number) => void;
  readonly onTyping: () => void;
}

const keptAs = 'ticked';
const { lists } = words;

/** The lists, and the key that enters what they make. */
export function TickPart({ known, onEntered, onTyping }: EnterPart) {
  const [ticked, keep] = useKept<AllTicked>(keptAs, {});
  const [trouble, setTrouble] = useState('');
  const enter = useEntering();
  const all = tickLists.flatMap((list) => listed(list, ticked[list.id] ?? untouched(list)));
  const drafts = all.flatMap(({ draft }) => draft ?? []);
  const fresh = drafts.filter(({ name }) => !known.has(name.toLocaleLowerCase()));
  const troubles = [
    ...all.flatMap((each) => each.trouble ?? []),
    ...fresh.flatMap((draft) => troubleOf(draft) ?? []),
    ...drafts.filter((draft) => !fresh.includes(draft)).map(({ name }) => lists.known(name)),
  ];
  const change = (list: TickList, part: Partial<Ticked>) => {
    onTyping();
    setTrouble('');
    keep((before) => ({
      ...before,
      [list.id]: { ...(before[list.id] ?? untouched(list)), ...part },
    }));
  };
  const add = async () => {
    const count = await enter(fresh);
    keep({});
    forgetKept(keptAs);
    onEntered(count);
  };
  return (
    <>
      {tickLists.map((list) => (
        <List
          key={list.id}
          list={list}
          ticked={ticked[list.id] ?? untouched(list)}
          known={known}
          onChange={(part) => change(list, part)}
        />
      ))}
      <ul className="plain made" aria-label={lists.toEnter}>
        {fresh.map(({ name, pack }) => (
          <li key={name}>
            <strong>{name}</strong> {pack?.label}
          </li>
        ))}
      </ul>
      {troubles.map((each) => (
        <p key={each} className="trouble">
          {each}
        </p>
      ))}
      <p role="alert">{trouble}</p>
      <Button
        className="key strong wide enter-key"
        isDisabled={fresh.length === 0 || troubles.length > 0}
        onPress={() => void add().catch((error: Error) => setTrouble(error.message))}
      >
        {lists.enter(fresh.length)}
      </Button>
    </>
  );
}

function List(props: {
  list: TickList;
  ticked: Ticked;
  known: ReadonlySet<string>;
  onChange: (part: Partial<Ticked>) => void;
}) {
  const { list, ticked, onChange } = props;
  const turn = (id: string, isOn: boolean) =>
    onChange({
      ticks: isOn ? [...ticked.ticks, id] : ticked.ticks.filter((each) => each !== id),
    });
  const touched = ticked.ticks.length > 0 || ticked.typed !== '';
  return (
    <fieldset className="book-lines tick-list">
      <legend>{lists.names[list.id]}</legend>
      <div className="options">
        {list.ticks.map((tick) => (
          <Checkbox
            key={tick.id}
            className="key"
            isSelected={ticked.ticks.includes(tick.id)}
            onChange={(isOn) => turn(tick.id, isOn)}
          >
            {tick.strength === undefined ? nameOfTick(tick) : <Strength of={tick.strength} />}
          </Checkbox>
        ))}
        <TextLine
          className="react-aria-TextField grow"
          label={lists.typed[list.id]}
          value={ticked.typed}
          onChange={(typed) => onChange({ typed })}
        />
      </div>
      {touched && <Details list={list} ticked={ticked} onChange={onChange} />}
    </fieldset>
  );
}

/** Strength both ways, as it may be read on the bottle. */
function Strength({ of }: { of: string }) {
  return (
    <span>
      {vol(of)} <small>{number(percentOfVolume(decimal(of)), 1)} %</small>
    </span>
  );
}

function Details(props: {
  list: TickList;
  ticked: Ticked;
  onChange: (part: Partial<Ticked>) => void;
}) {
  const { list, ticked, onChange } = props;
  const vessel = lists.vessels[list.vessel];
  return (
    <div className="fields">
      <TextLine label={lists.line} value={ticked.line} onChange={(line) => onChange({ line })} />
      <TextLine
        label={lists.size(vessel, list.unit)}
        value={ticked.quantity}
        onChange={(quantity) => onChange({ quantity })}
        inputMode="decimal"
      />
      {list.unit !== 'piece' && (
        <TextLine
          label={lists.empty(vessel)}
          value={ticked.emptyGrams}
          onChange={(emptyGrams) => onChange({ emptyGrams })}
          inputMode="decimal"
        />
      )}
    </div>
  );
}
