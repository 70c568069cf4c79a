/** Ordering: the plan, the orders that were written, and what will be used. */
import { lazy } from 'react';
import { MoneyGate } from '../pricing/money-gate.js';
import { addressOf, usePlace } from '../shell/place.js';
import { texts } from './texts.js';
import '../pricing/pricing.css';
import './purchasing.css';

const PlanPage = lazy(() => import('./plan-page.js'));
const OrdersPage = lazy(() => import('./orders-page.js'));
const OrderPage = lazy(() => import('./order-page.js'));
const ForecastsPage = lazy(() => import('./forecasts-page.js'));
const DiaryPage = lazy(() => import('../bookings/diary-page.js'));
const ForecastPage = lazy(() => import('./forecast-page.js'));

const parts = ['plan', 'orders', 'forecast', 'diary'] as const;

/** The page. */
export default function OrderingPage() {
  const [, part = 'plan', id] = usePlace();
  return (
    <MoneyGate>
      <nav aria-label={texts.title} className="parts">
        {parts.map((each) => (
          <a
            key={each}
            href={addressOf('ordering', each)}
            aria-current={each === part ? 'page' : undefined}
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
  if (part === 'orders') {
    return id === undefined ? <OrdersPage /> : <OrderPage key={id} orderId={id} />;
  }
  if (part === 'forecast') {
    return id === undefined ? <ForecastsPage /> : <ForecastPage key={id} of={id} />;
  }
  if (part === 'diary') return <DiaryPage />;
  return <PlanPage />;
}
