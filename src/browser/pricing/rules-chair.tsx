/** What a minute of a chair and an hour of a person cost; the minute worked out where wished. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { money } from './money.js';
import { RateField } from './rate-field.js';
import { chairMinute, type RulesPart } from './rules-state.js';
import { words } from './rules-texts.js';

/** The page of time. */
export function ChairRules({ rules, currency, change }: RulesPart) {
  const [typed, type] = useState({ costs: '', chairs: '', hours: '', inUse: '' });
  const found = chairMinute(typed);
  return (
    <section className="page" aria-labelledby="chair-title">
      <h2 id="chair-title">{words.chair}</h2>
      <div className="side-by-side">
        <RateField
          label={words.overhead(currency)}
          value={rules.overhead}
          onChange={(overhead) => change({ overhead })}
        />
        <RateField
          label={words.hour(currency)}
          value={rules.hourRate}
          onChange={(hourRate) => change({ hourRate })}
        />
      </div>
      <h3>{words.worked}</h3>
      <div className="side-by-side">
        <RateField
          label={words.costs(currency)}
          value={typed.costs}
          onChange={(costs) => type({ ...typed, costs })}
        />
        <RateField
          label={words.chairs}
          value={typed.chairs}
          onChange={(chairs) => type({ ...typed, chairs })}
        />
        <RateField
          label={words.hours}
          value={typed.hours}
          onChange={(hours) => type({ ...typed, hours })}
        />
        <RateField
          label={words.inUse}
          value={typed.inUse}
          onChange={(inUse) => type({ ...typed, inUse })}
        />
      </div>
      <p className="quiet">{words.foundHow}</p>
      {found !== undefined && (
        <div className="keys">
          <p className="till" role="status">
            <strong>{words.found(money(found, currency))}</strong>
          </p>
          <Button className="key" onPress={() => change({ overhead: found })}>
            {words.take}
          </Button>
        </div>
      )}
    </section>
  );
}
