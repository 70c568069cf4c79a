/** A price before the service: its range from like visits, and how good such ranges were. */
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Checkbox } from 'react-aria-components';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import type { QuoteView } from '../../../shared/contract/quotes.js';
import { send } from '../api/calls.js';
import { Choice } from '../shell/choice.js';
import { texts as shell } from '../shell/texts.js';
import { GivenQuotes } from './given-quotes.js';
import { QuoteFound } from './quote-found.js';
import { texts } from './texts.js';

const { quotes: words } = texts;
const lengths = ['any', 'short', 'medium', 'long', 'very long'] as const;
const densities = ['any', 'fine', 'medium', 'thick'] as const;

/** The page. */
export default function QuotesPage() {
  const [chosen, choose] = useState<readonly string[]>([]);
  const [length, setLength] = useState<(typeof lengths)[number]>('any');
  const [density, setDensity] = useState<(typeof densities)[number]>('any');
  const request = {
    services: chosen.map((serviceId) => ({ serviceId })),
    ...(length === 'any' ? {} : { hairLength: length }),
    ...(density === 'any' ? {} : { hairDensity: density }),
  };
  const { data, error, isFetching } = useQuery({
    queryKey: ['quotes', 'dry', request],
    enabled: chosen.length > 0,
    retry: false,
    staleTime: 60_000,
    queryFn: async () => (await send('POST', '/quotes?dry=true', request)) as QuoteView,
  });
  return (
    <div className="two-pages">
      <section className="page" aria-labelledby="quotes-title">
        <h1 id="quotes-title">{words.title}</h1>
        <ChooseServices chosen={chosen} onChoose={choose} />
        <Choice
          label={words.length}
          value={length}
          options={lengths.map((value) => ({ value, text: words.lengths[value] }))}
          onChoose={setLength}
        />
        <Choice
          label={words.density}
          value={density}
          options={densities.map((value) => ({ value, text: words.densities[value] }))}
          onChoose={setDensity}
        />
      </section>
      <div className="beside">
        <section className="page" aria-live="polite">
          {chosen.length === 0 && <p>{words.choose}</p>}
          {isFetching && <p>{shell.loading}</p>}
          {error && <p role="alert">{error.message}</p>}
          {data && !error && chosen.length > 0 && <QuoteFound quote={data} request={request} />}
        </section>
        <GivenQuotes />
      </div>
    </div>
  );
}

function ChooseServices(props: {
  chosen: readonly string[];
  onChoose: (chosen: readonly string[]) => void;
}) {
  const { chosen, onChoose } = props;
  const turn = (id: string, isOn: boolean) =>
    onChoose(isOn ? [...chosen, id] : chosen.filter((each) => each !== id));
  return (
    <div className="choice" role="group" aria-label={words.services}>
      <span>{words.services}</span>
      <div className="options">
        {useServices().map(({ id, name }) => (
          <Checkbox
            key={id}
            className="key"
            isSelected={chosen.includes(id)}
            onChange={(isOn) => turn(id, isOn)}
          >
            {name}
          </Checkbox>
        ))}
      </div>
    </div>
  );
}

function useServices(): readonly ServiceView[] {
  const { data } = useQuery({
    queryKey: ['services'],
    staleTime: 60_000,
    queryFn: async () =>
      ((await send('GET', '/services?limit=500')) as { items: ServiceView[] }).items,
  });
  return (data ?? []).toSorted((a, b) => a.name.localeCompare(b.name));
}
