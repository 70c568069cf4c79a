/** Pricing: the visits of a day, and whatever else of prices the address names. */
import { lazy } from 'react';
import { addressOf, usePlace } from '../shell/place.js';
import { MoneyGate } from './money-gate.js';
import { texts } from './texts.js';
import { VisitsOfDay } from './visits-of-day.js';
import './pricing.css';

const VisitSheetPage = lazy(() => import('./visit-sheet-page.js'));

/** The page. */
export default function PricingPage() {
  const [, part, id] = usePlace();
  return (
    <MoneyGate>
      {part === 'visit' && id !== undefined ? (
        <VisitSheetPage key={id} visitId={id} />
      ) : (
        <>
          <PricingParts at={part} />
          <VisitsOfDay day={id} />
        </>
      )}
    </MoneyGate>
  );
}

const parts = ['visits'] as const;

function PricingParts({ at = 'visits' }: { at: string | undefined }) {
  if (parts.length < 2) return null;
  return (
    <nav aria-label={texts.title} className="parts">
      {parts.map((part) => (
        <a
          key={part}
          href={addressOf('pricing', part)}
          aria-current={part === at ? 'page' : undefined}
        >
          {texts.parts[part]}
        </a>
      ))}
    </nav>
  );
}
