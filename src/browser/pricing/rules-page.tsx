/** Rules of price: tax, chair and time, card fee, commission, what is charged on top. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button, Form } from 'react-aria-components';
import type { PricingSettings } from '../../../shared/contract/pricing.js';
import { send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { useSession } from '../people/session.js';
import { texts as shell } from '../shell/texts.js';
import { ChairRules } from './rules-chair.js';
import { OnTopRules } from './rules-on-top.js';
import { CommissionRules, CardRules } from './rules-pay.js';
import { isWhole, settingsOf, typedRules, type RulesPart } from './rules-state.js';
import { TaxRules } from './rules-tax.js';
import { words } from './rules-texts.js';

/** The page; changed by owners, read by managers. */
export default function RulesPage() {
  const studio = useStudio();
  if (!studio?.pricing) return <p>{shell.loading}</p>;
  return <RulesForm settings={studio.pricing} currency={studio.currency} />;
}

function RulesForm({ settings, currency }: { settings: PricingSettings; currency: string }) {
  const queries = useQueryClient();
  const isOwner = useSession().data?.role === 'owner';
  const [rules, setRules] = useState(() => typedRules(settings));
  const [said, say] = useState('');
  const [trouble, setTrouble] = useState('');
  const part: RulesPart = {
    rules,
    currency,
    change: (changed) => {
      say('');
      setTrouble('');
      setRules((before) => ({ ...before, ...changed }));
    },
  };
  const save = async () => {
    if (!isWhole(rules)) throw new Error(words.unreadable);
    await send('PATCH', '/studio', { pricing: settingsOf(rules) });
    await queries.invalidateQueries({ queryKey: ['studio'] });
    await queries.invalidateQueries({ queryKey: ['visits'] });
    say(words.saved);
  };
  return (
    <Form
      onSubmit={(event) => {
        event.preventDefault();
        void save().catch((error: Error) => setTrouble(error.message));
      }}
    >
      <h1>
        {words.title} <small>{words.later}</small>
      </h1>
      {!isOwner && <p>{words.ownerOnly}</p>}
      <fieldset className="two-pages rules" disabled={!isOwner}>
        <legend className="hidden">{words.title}</legend>
        <div className="beside">
          <TaxRules {...part} />
          <section className="page">
            <CardRules {...part} />
            <CommissionRules {...part} />
          </section>
        </div>
        <div className="beside">
          <ChairRules {...part} />
          <OnTopRules {...part} />
        </div>
      </fieldset>
      <p role="alert">{trouble}</p>
      <p role="status">{said}</p>
      {isOwner && (
        <Button className="key strong" type="submit">
          {words.save}
        </Button>
      )}
    </Form>
  );
}
