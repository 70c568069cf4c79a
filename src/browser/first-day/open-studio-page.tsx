/** The first page of the first day: a studio of one's own, its owner, and this device its bench. */
import { useState } from 'react';
import { Button, Form } from 'react-aria-components';
import type { SessionView } from '../../../shared/contract/people.js';
import { supplierPriceKinds } from '../../../shared/supplier-prices.js';
import { currencyOfCountry } from '../../../shared/country-currency.js';
import { send } from '../api/calls.js';
import { Choice } from '../shell/choice.js';
import { addressOf } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { forgetKept, useKept } from './kept.js';
import { freshOpening, openingRequest, troublesOf } from './opening-draft.js';
import type { OpeningDraft, Secrets, Troubles } from './opening-draft.js';
import { beginAt, enterStudio, notSentHere } from './other-studio.js';
import { useOpening } from './own-studio-link.js';
import { PickField } from './pick-field.js';
import { countries, currencies, timeZones } from './places-of-the-world.js';
import { words } from './texts.js';
import { TextLine } from './text-line.js';
import './first-day.css';

const { open } = words;
const keptAs = 'open-studio';

/** The page. */
export default function OpenStudioPage() {
  const opening = useOpening();
  const [draft, keep] = useKept<OpeningDraft>(keptAs, freshOpening());
  const [secrets, setSecrets] = useState<Secrets>({ pin: '', code: '' });
  const [troubles, setTroubles] = useState<Troubles>({});
  const [refused, setRefused] = useState('');
  const needsCode = opening?.needsCode ?? false;
  const change = (part: Partial<OpeningDraft>) => keep((before) => ({ ...before, ...part }));
  const openIt = async () => {
    setRefused('');
    const found = troublesOf(draft, secrets, needsCode);
    setTroubles(found);
    if (Object.keys(found).length > 0) return;
    const waiting = notSentHere();
    if (waiting > 0) throw new Error(open.notSent(waiting));
    const session = await send('POST', '/opening', openingRequest(draft, secrets));
    forgetKept(keptAs);
    enterStudio(session as SessionView);
    beginAt(addressOf('first-day', 'products'));
  };
  if (opening?.possible === false) return <AlreadyOpen />;
  return (
    <main className="entrance first-day">
      <h1>{open.title}</h1>
      <p>{open.why}</p>
      <Form
        onSubmit={(event) => {
          event.preventDefault();
          void openIt().catch((error: Error) => setRefused(error.message));
        }}
      >
        <TextLine
          label={open.name}
          value={draft.name}
          onChange={(name) => change({ name })}
          maxLength={120}
          trouble={troubles.name ?? ''}
          autoFocus
        />
        <Where draft={draft} troubles={troubles} change={change} />
        <Prices draft={draft} troubles={troubles} change={change} />
        <Owner
          {...{ draft, troubles, change, secrets, needsCode }}
          onSecrets={(part) => setSecrets((before) => ({ ...before, ...part }))}
        />
        <p role="alert">{refused || (Object.keys(troubles).length > 0 ? open.look : '')}</p>
        <div className="keys">
          <Button className="key strong" type="submit">
            {open.submit}
          </Button>
          <a className="key" href="#/">
            {texts.cancel}
          </a>
        </div>
      </Form>
    </main>
  );
}

function AlreadyOpen() {
  return (
    <main className="entrance">
      <h1>{open.title}</h1>
      <p>{open.already}</p>
      <a className="key" href="#/">
        {texts.pour.back}
      </a>
    </main>
  );
}

interface PartProps {
  readonly draft: OpeningDraft;
  readonly troubles: Troubles;
  readonly change: (part: Partial<OpeningDraft>) => void;
}

function Where({ draft, troubles, change }: PartProps) {
  const [lists] = useState(() => ({
    countries: countries(),
    currencies: currencies(),
    timeZones: timeZones(),
  }));
  const settle = (country: string) => {
    const currency = currencyOfCountry(country) ?? draft.currency;
    change({ country, currency });
  };
  return (
    <div className="fields">
      <PickField
        label={open.country}
        items={lists.countries}
        value={draft.country}
        onChoose={settle}
      />
      <div>
        <PickField
          key={draft.currency}
          label={open.currency}
          items={lists.currencies}
          value={draft.currency}
          onChoose={(currency) => change({ currency })}
        />
        <p className="trouble">{troubles.currency}</p>
      </div>
      <PickField
        label={open.timeZone}
        items={lists.timeZones}
        value={draft.timeZone}
        onChoose={(timeZone) => change({ timeZone })}
      />
    </div>
  );
}

function Prices({ draft, troubles, change }: PartProps) {
  return (
    <>
      <Choice
        label={open.prices}
        value={draft.prices}
        options={supplierPriceKinds.map((value) => ({ value, text: open.kinds[value] }))}
        onChoose={(prices) => change({ prices })}
      />
      <p className="trouble">{troubles.prices}</p>
      {draft.prices === 'tax got back' && (
        <TextLine
          label={open.rate}
          value={draft.taxRate}
          onChange={(taxRate) => change({ taxRate })}
          inputMode="decimal"
          trouble={troubles.taxRate ?? ''}
        />
      )}
    </>
  );
}

function Owner(
  props: PartProps & {
    secrets: Secrets;
    needsCode: boolean;
    onSecrets: (part: Partial<Secrets>) => void;
  },
) {
  const { draft, troubles, change, secrets, onSecrets } = props;
  return (
    <div className="fields">
      <TextLine
        label={open.owner}
        value={draft.owner}
        onChange={(owner) => change({ owner })}
        maxLength={120}
        trouble={troubles.owner ?? ''}
      />
      <TextLine
        label={open.pin}
        value={secrets.pin}
        onChange={(pin) => onSecrets({ pin: pin.replace(/\D/g, '').slice(0, 8) })}
        inputMode="numeric"
        trouble={troubles.pin ?? ''}
      />
      {props.needsCode && (
        <TextLine
          label={open.code}
          value={secrets.code}
          onChange={(code) => onSecrets({ code })}
          trouble={troubles.code ?? ''}
        />
      )}
    </div>
  );
}
