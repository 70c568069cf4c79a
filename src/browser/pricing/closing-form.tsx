/** Closing a visit: minutes, what was used, discount, payment, tip; what goes to the till. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button, Form } from 'react-aria-components';
import type { VisitPrice, VisitView } from '../../../shared/contract/visits.js';
import { Refused } from '../api/calls.js';
import { Choice } from '../shell/choice.js';
import { addressOf } from '../shell/place.js';
import { ClosingKit } from './closing-kit.js';
import { ClosingMinutes } from './closing-minutes.js';
import { ClosingMoney } from './closing-money.js';
import { closeVisit, firstClosing, isReadable, useClosingPreview } from './closing-state.js';
import { money } from './money.js';
import { texts } from './texts.js';

const { closing: words, sheet } = texts;

/** The page beside the sheet of an open visit. */
export function ClosingForm({ visit, currency }: { visit: VisitView; currency: string }) {
  const queries = useQueryClient();
  const [closing, setClosing] = useState(() => firstClosing(visit));
  const [openBowls, setOpenBowls] = useState<'refuse' | 'all-applied'>('refuse');
  const [trouble, setTrouble] = useState('');
  const preview = useClosingPreview(visit, closing);
  const change = (part: Partial<typeof closing>) => {
    setTrouble('');
    setClosing((before) => ({ ...before, ...part }));
  };
  const price = preview.data?.price;
  const close = async () => {
    await closeVisit(visit, closing, { price, openBowls });
    await queries.invalidateQueries({ queryKey: ['visits'] });
  };
  const wrong = trouble || preview.error?.message;
  return (
    <section className="page" aria-labelledby="closing-title">
      <h2 id="closing-title">{words.title}</h2>
      <Form
        onSubmit={(event) => {
          event.preventDefault();
          void close().catch((error: Error) => setTrouble(troubleOf(error)));
        }}
      >
        <ClosingMinutes closing={closing} change={change} />
        <ClosingKit closing={closing} proposed={preview.data?.uses ?? []} change={change} />
        <ClosingMoney closing={closing} currency={currency} change={change} />
        <OpenBowls visit={visit} value={openBowls} onChoose={setOpenBowls} />
        <p role="alert">{wrong}</p>
        {!preview.error && <ToTheTill price={price} pending={preview.isPending} />}
        <Button
          className="key strong wide"
          type="submit"
          isDisabled={!preview.isCurrent || !isReadable(closing)}
        >
          {words.close}
        </Button>
      </Form>
    </section>
  );
}

function troubleOf(error: Error): string {
  const isOpen = error instanceof Refused && error.code === 'bowls_still_open';
  return isOpen ? words.stillOpen : error.message;
}

function ToTheTill({ price, pending }: { price: VisitPrice | undefined; pending: boolean }) {
  if (pending) return null;
  if (!price) return <p>{words.unpriced}</p>;
  return (
    <p className="till" role="status">
      <strong>{sheet.till(money(price.toTheTill, price.currency))}</strong>{' '}
      <span className="quiet">
        {words.preview} {sheet.notTill}
      </span>
    </p>
  );
}

/** Nothing closes over an open bowl without being told what became of it. */
function OpenBowls(props: {
  visit: VisitView;
  value: 'refuse' | 'all-applied';
  onChoose: (value: 'refuse' | 'all-applied') => void;
}) {
  const open = props.visit.bowls.filter(({ state }) => state === 'open');
  if (open.length === 0) return null;
  return (
    <>
      <Choice
        label={words.openBowls}
        value={props.value}
        options={[
          { value: 'refuse', text: words.weighFirst },
          { value: 'all-applied', text: words.allApplied },
        ]}
        onChoose={props.onChoose}
      />
      <div className="keys">
        {open.map(({ id, purpose }) => (
          <a key={id} className="key" href={addressOf('bowl', id, 'left')}>
            {words.weigh(purpose)}
          </a>
        ))}
      </div>
    </>
  );
}
