/** The page starts here: what it wears, what it keeps, and its frame. */
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Refused } from './api/calls.js';
import { App } from './shell/app.js';
import { keepPage } from './shell/keep-page.js';
import { wearTheme } from './shell/preferences.js';
import './shell/base.css';
import './shell/book.css';
import './shell/frame.css';
import './scales/beam.css';
import './bowls/bowls.css';

const queries = new QueryClient({
  defaultOptions: {
    queries: {
      networkMode: 'always',
      retry: (times, error) => !(error instanceof Refused) && times < 3,
    },
  },
});

wearTheme();
if (import.meta.env.PROD) keepPage().catch(() => undefined);

const page = document.getElementById('page');
if (page) {
  createRoot(page).render(
    <StrictMode>
      <QueryClientProvider client={queries}>
        <App />
      </QueryClientProvider>
    </StrictMode>,
  );
}
