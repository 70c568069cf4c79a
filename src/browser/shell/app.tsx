/** The frame of the page: whose studio, whose hands, where to go, what is not sent. */
import { lazy, Suspense, useState } from 'react';
import { Button } from 'react-aria-components';
import { BenchPage } from '../bowls/bench-page.js';
import { BowlPage } from '../bowls/bowl-page.js';
import { OwnStudioLink } from '../first-day/own-studio-link.js';
import { DevicePage } from '../people/device-page.js';
import { HandsKey } from '../people/hands-key.js';
import { SignInPage } from '../people/sign-in-page.js';
import { reach } from '../api/calls.js';
import { useHands, useSession, type Session } from '../people/session.js';
import { showing } from '../pricing/showing.js';
import { Blank } from './blank.js';
import { OutboxLine } from './outbox-line.js';
import { addressOf, usePlace } from './place.js';
import { usePreferences } from './preferences.js';
import { SettingsKey } from './settings-key.js';
import { useStocking } from './stocking.js';
import { useStore } from './store.js';
import { texts } from './texts.js';

const PlanPage = lazy(() => import('../bowls/plan-page.js'));
const VisitPage = lazy(() => import('../bowls/visit-page.js'));
const DayPage = lazy(() => import('../bowls/day-page.js'));
const ShelfPage = lazy(() => import('../stock/shelf-page.js'));
const LeftOverPage = lazy(() => import('../waste/left-over-page.js'));
const PricingPage = lazy(() => import('../pricing/pricing-page.js'));
const OrderingPage = lazy(() => import('../purchasing/ordering-page.js'));
const PeoplePage = lazy(() => import('../people/people-page.js'));
const FirstDayPage = lazy(() => import('../first-day/first-day-page.js'));
const OpenStudioPage = lazy(() => import('../first-day/open-studio-page.js'));
const UnsentPage = lazy(() => import('../unsent/unsent-page.js'));
const ClientPage = lazy(() => import('../pricing/client-page.js'));

const places = [
  'bench',
  'day',
  'pricing',
  'shelf',
  'ordering',
  'waste',
  'people',
  'first-day',
] as const;
/** Orders are a manager's and an owner's; a price is quoted by stylists too. */
const managed: ReadonlySet<string> = new Set(['ordering', 'people', 'first-day']);
/** Pages that work while the service does not answer. */
const ownOfTheBench: ReadonlySet<string> = new Set([
  'bench',
  'visit',
  'plan',
  'bowl',
  'day',
  'unsent',
]);

/** The whole page. */
export function App() {
  const session = useSession();
  const [at] = usePlace();
  if (session.isPending) return <p className="entrance">{texts.loading}</p>;
  if (session.isError) return <Away onAgain={() => void session.refetch()} />;
  if (at === 'open-studio') {
    return (
      <Suspense fallback={null}>
        <OpenStudioPage />
      </Suspense>
    );
  }
  if (session.data === null) return <DevicePage />;
  return <Studio session={session.data} />;
}

/** The page of one studio: who is here, and where they are in it. */
function Studio({ session: { studio, person, live } }: { session: Session }) {
  useStocking();
  const [at = 'bench'] = usePlace();
  const hands = useHands().at;
  const [changing, change] = useState(false);
  const facts = useStore(showing);
  // who signed in is asked for anew, but never with a bowl in hand
  const asked = !hands || (live && !person && at !== 'bowl');
  if (person && facts) {
    return (
      <Suspense fallback={null}>
        <ClientPage facts={facts} />
      </Suspense>
    );
  }
  if (asked || changing) {
    return <SignInPage studio={studio.name} onDone={() => change(false)} />;
  }
  return (
    <>
      <a className="skip" href="#main">
        {texts.skip}
      </a>
      <header className="head">
        {studio.demo && (
          <p className="invented">
            {texts.demo(studio.name)} <OwnStudioLink className="own" />
          </p>
        )}
        <nav aria-label={texts.name}>
          <Places />
        </nav>
        <OutboxLine />
        <HandsKey onSomebodyElse={() => change(true)} />
        <SettingsKey />
      </header>
      <main id="main" tabIndex={-1}>
        <NeedsService />
        <Suspense fallback={<p>{texts.loading}</p>}>
          <PageHere />
        </Suspense>
      </main>
      <Blank studio={studio.name} />
    </>
  );
}

function Away({ onAgain }: { onAgain: () => void }) {
  return (
    <main className="entrance">
      <h1>{texts.name}</h1>
      <p>{texts.notThere}</p>
      <Button className="key strong" onPress={onAgain}>
        {texts.tryAgain}
      </Button>
    </main>
  );
}

/** Says that a page cannot do its work now; what is typed in it stays. */
function NeedsService() {
  const [at = 'bench'] = usePlace();
  const { away } = useStore(reach);
  if (!away || ownOfTheBench.has(at)) return null;
  return <p role="alert">{texts.outbox.needsService}</p>;
}

function Places() {
  const [at = 'bench'] = usePlace();
  const session = useSession().data;
  const role = session?.role;
  const manages = role === 'manager' || role === 'owner';
  const isFirstDay = !usePreferences().firstDayDone && session?.studio.demo === false;
  const shown = at === 'bowl' || at === 'plan' || at === 'visit' ? 'bench' : at;
  return (
    <ul>
      {places
        .filter((each) => manages || !managed.has(each))
        .filter((each) => role !== 'bench' || each !== 'pricing')
        .filter((each) => isFirstDay || each !== 'first-day')
        .map((each) => (
          <li key={each}>
            <a href={addressOf(each)} aria-current={each === shown ? 'page' : undefined}>
              {texts.places[each]}
            </a>
          </li>
        ))}
    </ul>
  );
}

function PageHere() {
  const [name = 'bench', id, part] = usePlace();
  if (name === 'plan') {
    const visitId = id === undefined || id === 'none' ? null : id;
    return <PlanPage key={`${id} ${part}`} visitId={visitId} vesselId={part ?? null} />;
  }
  if (name === 'bowl' && id !== undefined) return <BowlPage key={id} id={id} part={part} />;
  if (name === 'visit' && id !== undefined) return <VisitPage key={id} id={id} />;
  if (name === 'day') return <DayPage />;
  if (name === 'shelf') return <ShelfPage />;
  if (name === 'waste') return <LeftOverPage />;
  if (name === 'pricing') return <PricingPage />;
  if (name === 'ordering') return <OrderingPage />;
  if (name === 'people') return <PeoplePage />;
  if (name === 'first-day') return <FirstDayPage />;
  if (name === 'unsent') return <UnsentPage />;
  return <BenchPage />;
}
