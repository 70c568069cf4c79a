/** The page about trusting this computer starts here; it stands apart, without a session. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { wearTheme } from '../shell/preferences.js';
import { TrustPage } from './trust-page.js';
import '../shell/base.css';
import '../shell/frame.css';
import './trust.css';

wearTheme();
const page = document.getElementById('page');
if (page) {
  createRoot(page).render(
    <StrictMode>
      <TrustPage />
    </StrictMode>,
  );
}
