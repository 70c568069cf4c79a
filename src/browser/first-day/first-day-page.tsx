/** The first day: products, shelf, services, people, in any order, with how far each has come. */
import { lazy } from 'react';
import { addressOf, usePlace } from '../shell/place.js';
import { useProgress } from './progress.js';
import { words } from './texts.js';
import './first-day.css';

const ProductsPage = lazy(() => import('./products-page.js'));

const parts = ['products'] as const;

/** The page. */
export default function FirstDayPage() {
  const [, part = 'products'] = usePlace();
  const progress = useProgress();
  return (
    <>
      <nav aria-label={words.title} className="steps">
        {parts.map((each) => (
          <a
            key={each}
            href={addressOf('first-day', each)}
            aria-current={each === part ? 'page' : undefined}
          >
            {progress[each]}
          </a>
        ))}
        <a className="key strong" href={addressOf('bench')}>
          {words.toBench}
        </a>
      </nav>
      <p className="quiet">{words.fiveMinutes}</p>
      <ProductsPage />
    </>
  );
}
