/** Pricing: visits and their sheets, quotes, earnings, the rules; stylists only quote. */
import { lazy } from 'react';
import { useSession } from '../people/session.js';
import { addressOf, usePlace } from '../shell/place.js';
import { MoneyGate } from './money-gate.js';
import { texts } from './texts.js';
import { VisitsOfDay } from './visits-of-day.js';
import './pricing.css';

const VisitSheetPage = lazy(() => import('./visit-sheet-page.js'));
const QuotesPage = lazy(() => import('./quotes-page.js'));
const EarningsPage = lazy(() => import('./earnings-page.js'));
const MenuPage = lazy(() => import('./menu-page.js'));
const RulesPage = lazy(() => import('./rules-page.js'));

const parts = ['visits', 'quotes', 'menu', 'earnings', 'rules'] as const;

/** The page. */
export default function PricingPage() {
  const role = useSession().data?.role;
  const manages = role === 'manager' || role === 'owner';
  const [, part = 'visits', id] = usePlace();
  if (!manages) {
    return (
      <MoneyGate>
        <QuotesPage />
      </MoneyGate>
    );
  }
  return (
    <MoneyGate>
      <nav aria-label={texts.title} className="parts">
        {parts.map((each) => (
          <a
            key={each}
            href={addressOf('pricing', each)}
            aria-current={each === (part === 'visit' ? 'visits' : part) ? 'page' : undefined}
          >
            {texts.parts[each]}
          </a>
        ))}
      </nav>
      <Part part={part} id={id} />
    </MoneyGate>
  );
}

function Part({ part, id }: { part: string; id: string | undefined }) {
  if (part === 'visit' && id !== undefined) return <VisitSheetPage key={id} visitId={id} />;
  if (part === 'quotes') return <QuotesPage />;
  if (part === 'earnings') return <EarningsPage />;
  if (part === 'menu') return <MenuPage id={id} />;
  if (part === 'rules') return <RulesPage />;
  return <VisitsOfDay day={id} />;
}
