/** The first day: products, shelf, services, people, in any order, with how far each has come. */
import { lazy } from 'react';
import { Button } from 'react-aria-components';
import { addressOf, goTo, usePlace } from '../shell/place.js';
import { prefer, usePreferences } from '../shell/preferences.js';
import { useProgress } from './progress.js';
import { words } from './texts.js';
import './first-day.css';

const ProductsPage = lazy(() => import('./products-page.js'));
const ShelfPage = lazy(() => import('./shelf-page.js'));
const MenuPage = lazy(() => import('./menu-page.js'));
const StartPeople = lazy(() => import('./people-part.js'));

const parts = ['products', 'shelf', 'menu', 'people'] as const;

/** The page. */
export default function FirstDayPage() {
  const [, part = 'products'] = usePlace();
  const progress = useProgress();
  const { firstDayDone } = usePreferences();
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
      <Part part={part} />
      {firstDayDone ? null : (
        <div className="keys">
          <Button
            className="key"
            onPress={() => {
              prefer({ firstDayDone: true });
              goTo('bench');
            }}
          >
            {words.done}
          </Button>
          <span className="quiet">{words.doneHow}</span>
        </div>
      )}
    </>
  );
}

function Part({ part }: { part: string }) {
  if (part === 'shelf') return <ShelfPage />;
  if (part === 'menu') return <MenuPage />;
  if (part === 'people') return <StartPeople />;
  return <ProductsPage />;
}
