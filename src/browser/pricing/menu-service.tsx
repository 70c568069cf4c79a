/** One service of the menu: its versions, what became another by each, a new one from a day. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { ServiceVersionsView, ServiceVersionView } from '../../../shared/contract/menu.js';
import { send } from '../api/calls.js';
import { useProducts, useStudio } from '../catalogue/catalogue.js';
import { deviceNow, studioDay } from '../shell/clock.js';
import { addressOf, goTo } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { dayInFull, instantInWords } from './days.js';
import { MenuFields } from './menu-fields.js';
import {
  differences,
  emptyService,
  inWords,
  termsTyped,
  typedService,
  type Telling,
} from './menu-state.js';
import { words } from './menu-texts.js';

/** The page of a service. */
export function MenuService({ serviceId }: { serviceId: string }) {
  const { data, error } = useQuery({
    queryKey: ['menu', serviceId],
    queryFn: async () =>
      (await send('GET', `/services/${serviceId}/versions`)) as ServiceVersionsView,
  });
  const telling = useTelling(data?.currency ?? 'EUR');
  const now = data?.rows.find(({ state }) => state === 'in force');
  return (
    <>
      <h1>{data?.name}</h1>
      <div className="keys">
        <a className="key" href={addressOf('pricing', 'menu')}>
          {words.back}
        </a>
      </div>
      {error && <p role="alert">{error.message}</p>}
      {!data && !error && <p>{shell.loading}</p>}
      {data && now && (
        <div className="two-pages">
          <Versions of={data} telling={telling} />
          <NewVersion key={now.id ?? ''} now={now} of={data} telling={telling} />
        </div>
      )}
    </>
  );
}

function useTelling(currency: string): Telling {
  const products = useProducts();
  const nameOf = (id: string) => products.inOrder.find((each) => each.id === id)?.name ?? '…';
  return { currency, nameOf };
}

function Versions({ of, telling }: { of: ServiceVersionsView; telling: Telling }) {
  const { rows, serviceId } = of;
  const standing = rows.filter(({ state }) => state !== 'withdrawn');
  return (
    <section className="page" aria-labelledby="versions-title">
      <h2 id="versions-title">{words.versions}</h2>
      <ol className="plain versions">
        {rows.map((version) => {
          const before = standing[standing.indexOf(version) + 1] ?? rows.at(-1);
          return (
            <Version
              key={version.id ?? 'first'}
              {...{ version, telling, serviceId }}
              before={version.id === null ? undefined : before}
            />
          );
        })}
      </ol>
    </section>
  );
}

function Version(props: {
  version: ServiceVersionView;
  before: ServiceVersionView | undefined;
  serviceId: string;
  telling: Telling;
}) {
  const { version, before, telling, serviceId } = props;
  const queries = useQueryClient();
  const timeZone = useStudio()?.timeZone;
  const [trouble, setTrouble] = useState('');
  const withdraw = async () => {
    await send('POST', `/services/${serviceId}/versions/${version.id ?? ''}/withdraw`, {});
    await queries.invalidateQueries({ queryKey: ['menu'] });
  };
  const { startsOn, state, madeAt, madeBy } = version;
  const since = startsOn === null ? words.beginning : words.from(dayInFull(startsOn));
  return (
    <li className="version" data-state={state}>
      <p>
        <strong>{since}</strong> <span className="pointer">{words.states[state]}</span>
      </p>
      {before ? (
        <Differences of={differences(before, version, telling)} />
      ) : (
        <p>
          {words.first(
            inWords(version, 'price', telling),
            words.time(version.handsOnMinutes, version.chairMinutes),
          )}
        </p>
      )}
      {madeAt !== null && (
        <p className="quiet">{words.made(madeBy, instantInWords(madeAt, timeZone))}</p>
      )}
      {state === 'planned' && (
        <Button
          className="key"
          onPress={() => void withdraw().catch((error: Error) => setTrouble(error.message))}
        >
          {words.withdraw}
        </Button>
      )}
      <p role="alert">{trouble}</p>
    </li>
  );
}

function Differences({ of }: { of: ReturnType<typeof differences> }) {
  if (of.length === 0) return <p className="quiet">{words.same}</p>;
  return (
    <ul>
      {of.map(({ field, before, after }) => (
        <li key={field}>{words.change(words.fields[field], before, after)}</li>
      ))}
    </ul>
  );
}

function NewVersion(props: { now: ServiceVersionView; of: ServiceVersionsView; telling: Telling }) {
  const { now, of, telling } = props;
  const queries = useQueryClient();
  const id = useId();
  const today = studioDay(useStudio()?.timeZone);
  const [startsOn, setStartsOn] = useState(today);
  const [typed, type] = useState(() => typedService(now));
  const [said, say] = useState('');
  const [trouble, setTrouble] = useState('');
  const terms = termsTyped(typed);
  const enter = async () => {
    if (!terms) throw new Error(words.unreadable);
    const body = { id: uuidv7(), sentAt: deviceNow(), startsOn, ...terms };
    await send('POST', `/services/${of.serviceId}/versions`, body);
    await queries.invalidateQueries({ queryKey: ['menu'] });
    say(words.entered);
  };
  return (
    <section className="page" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{words.form}</h2>
      <div className="small-field">
        <label htmlFor={id}>{words.startsOn}</label>
        <input
          id={id}
          className="date"
          type="date"
          min={today}
          value={startsOn}
          onChange={(event) => setStartsOn(event.target.value)}
        />
      </div>
      <MenuFields
        typed={typed}
        currency={telling.currency}
        change={(part) => {
          say('');
          setTrouble('');
          type((before) => ({ ...before, ...part }));
        }}
      />
      <h3>{words.differs}</h3>
      {terms ? <Differences of={differences(now, terms, telling)} /> : <p>{words.unreadable}</p>}
      <p role="alert">{trouble}</p>
      <p role="status">{said}</p>
      <Button
        className="key strong"
        onPress={() => void enter().catch((error: Error) => setTrouble(error.message))}
      >
        {words.enter}
      </Button>
    </section>
  );
}

/** A service that is not on the menu yet. */
export function NewService() {
  const queries = useQueryClient();
  const currency = useStudio()?.currency ?? 'EUR';
  const [name, setName] = useState('');
  const [typed, type] = useState(emptyService);
  const [trouble, setTrouble] = useState('');
  const add = async () => {
    const terms = termsTyped(typed);
    if (!terms || name.trim() === '') throw new Error(words.unreadable);
    const body = { id: uuidv7(), sentAt: deviceNow(), name: name.trim(), ...terms };
    const { id } = (await send('POST', '/services', body)) as { id: string };
    await queries.invalidateQueries({ queryKey: ['menu'] });
    goTo('pricing', 'menu', id);
  };
  return (
    <section className="page narrow" aria-labelledby="new-service">
      <h1 id="new-service">{words.add}</h1>
      <TextField value={name} onChange={setName}>
        <Label>{words.name}</Label>
        <Input autoComplete="off" />
      </TextField>
      <MenuFields
        typed={typed}
        currency={currency}
        change={(part) => type((before) => ({ ...before, ...part }))}
      />
      <p role="alert">{trouble}</p>
      <div className="keys">
        <Button
          className="key strong"
          onPress={() => void add().catch((error: Error) => setTrouble(error.message))}
        >
          {words.addIt}
        </Button>
        <a className="key" href={addressOf('pricing', 'menu')}>
          {words.back}
        </a>
      </div>
    </section>
  );
}
