/** One visit: its price sheet as a page of an account book, closing it, a price for a target. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { PriceSheetView } from '../../../shared/contract/pricing.js';
import type { VisitView } from '../../../shared/contract/visits.js';
import { Refused, send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { deviceNow, studioDay } from '../shell/clock.js';
import { addressOf } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { BuildUp } from './build-up.js';
import { ClosingForm } from './closing-form.js';
import { dayInFull, instantInWords } from './days.js';
import { visitToShow } from './client-facts.js';
import { money } from './money.js';
import { OlderSheets } from './older-sheets.js';
import { SheetBook } from './sheet-book.js';
import { show } from './showing.js';
import { TargetPrice } from './target-price.js';
import { texts } from './texts.js';
import { fullNameOf } from './who.js';

const { sheet: words } = texts;

/** The page of a visit. */
export default function VisitSheetPage({ visitId }: { visitId: string }) {
  const timeZone = useStudio()?.timeZone;
  const visit = useQuery({
    queryKey: ['visits', visitId],
    queryFn: async () => (await send('GET', `/visits/${visitId}`)) as VisitView,
  });
  const sheet = useQuery({
    queryKey: ['visits', visitId, 'price-sheet'],
    queryFn: async () => (await send('GET', `/visits/${visitId}/price-sheet`)) as PriceSheetView,
  });
  const error = visit.error ?? sheet.error;
  const noTax = error instanceof Refused && error.code === 'no_tax_rule';
  return (
    <>
      {visit.data && (
        <h1>
          {fullNameOf(visit.data)}{' '}
          <small>
            {dayInFull(studioDay(timeZone, visit.data.startedAt))},{' '}
            {visit.data.services.map(({ name }) => name).join(', ')}
          </small>
        </h1>
      )}
      {(visit.isPending || sheet.isPending) && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {noTax && <p>{words.noTax}</p>}
      {visit.data && <Keys visit={visit.data} sheet={sheet.data} timeZone={timeZone} />}
      {visit.data && sheet.data && <Pages visit={visit.data} sheet={sheet.data} zone={timeZone} />}
    </>
  );
}

function Pages(props: { visit: VisitView; sheet: PriceSheetView; zone: string | undefined }) {
  const { visit, sheet, zone } = props;
  return (
    <div className="sheet-pages">
      <section className="page" aria-labelledby="sheet-title">
        <h2 id="sheet-title">{words.title}</h2>
        <p>{stateInWords(sheet, zone)}</p>
        <p className="till">
          <strong>{words.till(money(sheet.totals.toTheTill, sheet.currency))}</strong>
        </p>
        {sheet.noCost.length > 0 && <p className="noted">{words.noCost(sheet.noCost.length)}</p>}
        <BuildUp totals={sheet.totals} currency={sheet.currency} />
        <SheetBook sheet={sheet} />
        {sheet.notes.length > 0 && (
          <>
            <h3>{words.notes}</h3>
            <ul>
              {sheet.notes.map(({ code, text }) => (
                <li key={code}>{text}</li>
              ))}
            </ul>
          </>
        )}
        <OlderSheets sheet={sheet} timeZone={zone} />
      </section>
      <div className="beside">
        {visit.closedAt === null && <ClosingForm visit={visit} currency={sheet.currency} />}
        <TargetPrice visitId={visit.id} currency={sheet.currency} />
      </div>
    </div>
  );
}

function stateInWords(sheet: PriceSheetView, timeZone: string | undefined): string {
  if (sheet.state === 'running') return words.running;
  const final = words.final(sheet.version ?? 1, instantInWords(sheet.madeAt ?? '', timeZone));
  return sheet.replaces === undefined ? final : `${final} ${words.replaces}`;
}

function Keys(props: {
  visit: VisitView;
  sheet: PriceSheetView | undefined;
  timeZone: string | undefined;
}) {
  const { visit, sheet, timeZone } = props;
  const queries = useQueryClient();
  const [trouble, setTrouble] = useState('');
  const [reopened, setReopened] = useState(false);
  const reopen = async () => {
    const body = { id: uuidv7(), sentAt: deviceNow() };
    await send('POST', `/visits/${visit.id}/reopen`, body);
    await queries.invalidateQueries({ queryKey: ['visits'] });
    setReopened(true);
  };
  return (
    <>
      <div className="keys">
        <a
          className="key"
          href={addressOf('pricing', 'visits', studioDay(timeZone, visit.startedAt))}
        >
          {words.back}
        </a>
        {sheet && (
          <Button className="key" onPress={() => show(visitToShow(visit, sheet))}>
            {words.show}
          </Button>
        )}
        {visit.closedAt !== null && (
          <Button
            className="key"
            onPress={() => void reopen().catch((error: Error) => setTrouble(error.message))}
          >
            {words.reopen}
          </Button>
        )}
      </div>
      <p role="status">{reopened && visit.closedAt === null && words.reopened}</p>
      <p role="alert">{trouble}</p>
    </>
  );
}
