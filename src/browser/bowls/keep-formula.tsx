/** After the bowls: one is kept as a formula, planned or poured, with a line for next time. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button, FieldError, Form, Input, Label, Text, TextField } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { ClientBowlView } from '../../../shared/contract/clients.js';
import type { VisitView } from '../../../shared/contract/visits.js';
import { decimal } from '../../../shared/decimal.js';
import { outbox } from '../api/outbox.js';
import { useProducts } from '../catalogue/catalogue.js';
import { useSession } from '../people/session.js';
import { Choice } from '../shell/choice.js';
import { texts } from '../shell/texts.js';
import { useClientBowls } from '../visits/clients.js';
import { visitTexts } from '../visits/texts.js';
import { mixAsPoured } from './as-poured.js';
import { partsOf } from './last-time.js';
import type { Known } from './next.js';
import { totalOf } from './planned-bowls.js';

const { formula: words, page: pageWords } = visitTexts;
const ways = ['poured', 'planned'] as const;
type Way = (typeof ways)[number];

/** The settled bowls of this visit of a client; those who may keep formulas see the key. */
export function KeepFormulas({ visit }: { visit: VisitView }) {
  const mayKeep = (useSession().data?.role ?? 'bench') !== 'bench';
  const bowls = useClientBowls(visit.clientId).filter(
    (bowl) => bowl.visitId === visit.id && bowl.state === 'settled',
  );
  const [keeping, keep] = useState<string>();
  const [kept, setKept] = useState<readonly string[]>([]);
  if (!mayKeep || bowls.length === 0) return null;
  const chosen = bowls.find(({ id }) => id === keeping);
  return (
    <>
      <h2>{pageWords.settled}</h2>
      <ul className="plain">
        {bowls.map((bowl) => (
          <li key={bowl.id} className="book-line">
            <strong className="grow">{bowl.purpose}</strong>
            {kept.includes(bowl.id) ? (
              <span role="status">{words.kept}</span>
            ) : (
              <Button
                className="key"
                aria-label={words.keep(bowl.purpose)}
                onPress={() => keep(bowl.id)}
              >
                {words.keepShort}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {chosen && visit.clientId !== null && (
        <KeepForm
          key={chosen.id}
          bowl={chosen}
          clientId={visit.clientId}
          onDone={(done) => {
            if (done) setKept([...kept, chosen.id]);
            keep(undefined);
          }}
        />
      )}
    </>
  );
}

function KeepForm(props: {
  bowl: ClientBowlView;
  clientId: string;
  onDone: (kept: boolean) => void;
}) {
  const { bowl, clientId } = props;
  const products = useProducts().byId;
  const queries = useQueryClient();
  const [name, setName] = useState(bowl.purpose);
  const [way, setWay] = useState<Way>('poured');
  const [minutes, setMinutes] = useState('');
  const [nextTime, setNextTime] = useState('');
  const badMinutes = minutes.trim() !== '' && !isMinutes(minutes);
  const save = () => {
    const typed = { name: name.trim(), way, minutes: minutes.trim(), nextTime: nextTime.trim() };
    const body = badMinutes ? undefined : formulaOf(bowl, typed, products);
    if (!body) return;
    const kept = keepFormula({ clientId, ...body });
    void kept.then(() => queries.invalidateQueries({ queryKey: ['formulas'] }));
    props.onDone(true);
  };
  return (
    <Form
      aria-label={words.title}
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <TextField value={name} onChange={setName} isRequired>
        <Label>{words.name}</Label>
        <Input maxLength={120} />
      </TextField>
      {bowl.plan && (
        <Choice
          label={words.which}
          value={way}
          options={ways.map((value) => ({ value, text: words.ways[value] }))}
          onChoose={setWay}
        />
      )}
      <MinutesField minutes={minutes} isBad={badMinutes} onChange={setMinutes} />
      <TextField value={nextTime} onChange={setNextTime}>
        <Label>{words.nextTime}</Label>
        <Input maxLength={300} autoComplete="off" />
        <Text slot="description">{words.nextTimeHow}</Text>
      </TextField>
      <div className="keys">
        <Button type="submit" className="key strong">
          {words.save}
        </Button>
        <Button className="key" onPress={() => props.onDone(false)}>
          {texts.cancel}
        </Button>
      </div>
    </Form>
  );
}

/** The formula as it is sent; undefined where there is nothing to keep. */
function formulaOf(
  bowl: ClientBowlView,
  typed: { name: string; way: Way; minutes: string; nextTime: string },
  products: Known['products'],
) {
  const { name, way, minutes, nextTime } = typed;
  const mix = mixAsPoured(partsOf(bowl.pours, products));
  const poured = mix && { ...mix, size: totalOf(decimal(bowl.applied.quantity)) };
  const plan = bowl.plan ?? poured;
  if (!plan || name === '') return undefined;
  return {
    ...{ name, purpose: bowl.purpose, plan },
    ...(way === 'poured' && bowl.plan && poured ? { poured } : {}),
    ...(minutes === '' ? {} : { minutesOnHair: Number.parseInt(minutes, 10) }),
    ...(nextTime === '' ? {} : { nextTime }),
  };
}

function MinutesField(props: {
  minutes: string;
  isBad: boolean;
  onChange: (minutes: string) => void;
}) {
  return (
    <TextField
      value={props.minutes}
      onChange={props.onChange}
      isInvalid={props.isBad}
      validationBehavior="aria"
    >
      <Label>{words.minutes}</Label>
      <Input inputMode="numeric" autoComplete="off" />
      <FieldError>{words.badMinutes}</FieldError>
    </TextField>
  );
}

function isMinutes(text: string): boolean {
  return /^\d{1,3}$/.test(text.trim()) && Number.parseInt(text, 10) <= 600;
}

/** Keeps the formula, and puts its line where the next visit shows it first. */
async function keepFormula(body: {
  clientId: string;
  name: string;
  nextTime?: string;
}): Promise<void> {
  const id = uuidv7();
  const what = words.booking(body.name);
  await outbox.post({ id, method: 'POST', path: '/formulas', body: { id, ...body }, what });
  if (body.nextTime === undefined) return;
  await outbox.post({
    ...{ id: uuidv7(), method: 'PATCH', path: `/clients/${body.clientId}` },
    ...{ body: { nextTime: body.nextTime }, what: words.lineBooking },
  });
}
