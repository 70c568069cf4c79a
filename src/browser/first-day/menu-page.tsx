/** Services and what bowls are for: ticked out of what a studio usually offers, prices optional. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button, Checkbox } from 'react-aria-components';
import { usePurposes, useStudio } from '../catalogue/catalogue.js';
import { forgetKept, useKept } from './kept.js';
import { namesIn, untouchedMenu, usualPurposes, usualServices, type MenuTicked } from './menu.js';
import { enterMenu } from './menu-entry.js';
import { useMenu } from './menu-there.js';
import { TextLine } from './text-line.js';
import { words } from './texts.js';

const { menu } = words;
const keptAs = 'menu';

/** The page. */
export default function MenuPage() {
  const queries = useQueryClient();
  const services = useMenu();
  const purposes = usePurposes();
  const currency = useStudio()?.currency ?? '';
  const [ticked, keep] = useKept<MenuTicked>(keptAs, untouchedMenu);
  const [said, say] = useState('');
  const [trouble, setTrouble] = useState('');
  const there = new Set([...services, ...purposes].map(({ name }) => name.toLocaleLowerCase()));
  const wanted = namesIn(ticked).filter(({ name }) => !there.has(name.toLocaleLowerCase()));
  const change = (part: Partial<MenuTicked>) => {
    say('');
    setTrouble('');
    keep((before) => ({ ...before, ...part }));
  };
  const add = async () => {
    await enterMenu(wanted, ticked.prices).finally(() =>
      Promise.all(
        ['services', 'purposes'].map((key) => queries.invalidateQueries({ queryKey: [key] })),
      ),
    );
    keep(untouchedMenu);
    forgetKept(keptAs);
    say(menu.entered(wanted.length));
  };
  return (
    <div className="two-pages">
      <section className="page" aria-labelledby="menu-title">
        <Services ticked={ticked} there={there} onChange={change} />
        <h2>{menu.purposes}</h2>
        <Ticks
          label={menu.purposes}
          names={usualPurposes.filter((name) => !there.has(name))}
          chosen={ticked.purposes}
          onChoose={(chosen) => change({ purposes: chosen })}
        />
        <Prices
          names={wanted.filter(({ isService }) => isService).map(({ name }) => name)}
          currency={currency}
          prices={ticked.prices}
          onChange={(prices) => change({ prices })}
        />
        <Enter
          count={wanted.length}
          trouble={trouble}
          said={said}
          onEnter={() => void add().catch((error: Error) => setTrouble(error.message))}
        />
      </section>
      <There services={services} purposes={purposes} />
    </div>
  );
}

/** Usual services to tick, and a line for others. */
function Services(props: {
  ticked: MenuTicked;
  there: ReadonlySet<string>;
  onChange: (part: Partial<MenuTicked>) => void;
}) {
  const { ticked, onChange } = props;
  const names = usualServices.map(({ name }) => name);
  return (
    <>
      <h1 id="menu-title">{menu.title}</h1>
      <p className="quiet">{menu.how}</p>
      <Ticks
        label={menu.title}
        names={names.filter((name) => !props.there.has(name.toLocaleLowerCase()))}
        chosen={ticked.services}
        onChoose={(services) => onChange({ services })}
      />
      <TextLine
        label={menu.others}
        value={ticked.others}
        onChange={(others) => onChange({ others })}
      />
    </>
  );
}

/** The key, and what came of it. */
function Enter(props: { count: number; trouble: string; said: string; onEnter: () => void }) {
  return (
    <>
      <p role="alert">{props.trouble}</p>
      <p role="status">{props.said}</p>
      <Button
        className="key strong wide enter-key"
        isDisabled={props.count === 0}
        onPress={props.onEnter}
      >
        {menu.enter(props.count)}
      </Button>
    </>
  );
}

/** A price for each service that is ticked; none is a price too. */
function Prices(props: {
  names: readonly string[];
  currency: string;
  prices: MenuTicked['prices'];
  onChange: (prices: MenuTicked['prices']) => void;
}) {
  const { prices } = props;
  return (
    <div className="fields">
      {props.names.map((name) => (
        <TextLine
          key={name}
          label={menu.price(name, props.currency)}
          value={prices[name] ?? ''}
          onChange={(price) => props.onChange({ ...prices, [name]: price })}
          inputMode="decimal"
        />
      ))}
    </div>
  );
}

/** What the menu has already. */
function There(props: {
  services: ReturnType<typeof useMenu>;
  purposes: ReturnType<typeof usePurposes>;
}) {
  return (
    <section className="page" aria-labelledby="menu-there">
      <h2 id="menu-there">{menu.there(props.services.length)}</h2>
      <ul className="plain">
        {props.services.map(({ id, name, price }) => (
          <li key={id}>
            <strong>{name}</strong> {price === '0' ? menu.noPrice : price}
          </li>
        ))}
      </ul>
      <p className="quiet">{props.purposes.map(({ name }) => name).join(', ')}</p>
    </section>
  );
}

function Ticks(props: {
  label: string;
  names: readonly string[];
  chosen: readonly string[];
  onChoose: (chosen: readonly string[]) => void;
}) {
  const { chosen, onChoose } = props;
  return (
    <div className="options" role="group" aria-label={props.label}>
      {props.names.map((name) => (
        <Checkbox
          key={name}
          className="key"
          isSelected={chosen.includes(name)}
          onChange={(isOn) =>
            onChoose(isOn ? [...chosen, name] : chosen.filter((each) => each !== name))
          }
        >
          {name}
        </Checkbox>
      ))}
    </div>
  );
}
