/** What this device prefers, behind one key. */
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { Choice } from './choice.js';
import { newerWaits, takeNewer } from './keep-page.js';
import { addressOf } from './place.js';
import { hands, prefer, themes, units, usePreferences } from './preferences.js';
import { useStore } from './store.js';
import { texts } from './texts.js';

/** Takes a newer version of the page that is here already. */
function NewerKey() {
  if (!useStore(newerWaits)) return null;
  return (
    <div className="keys">
      <p className="quiet">{texts.outbox.newVersion}</p>
      <Button className="key" onPress={takeNewer}>
        {texts.outbox.takeNow}
      </Button>
    </div>
  );
}

/** The key and its sheet. */
export function SettingsKey() {
  const { theme, unit, hand } = usePreferences();
  const { settings } = texts;
  return (
    <DialogTrigger>
      <Button className="key">{settings.title}</Button>
      <Popover className="sheet" placement="bottom end">
        <Dialog>
          <Heading slot="title">{settings.title}</Heading>
          <p>
            <a href={addressOf('unsent')}>{texts.outbox.title}</a>
          </p>
          <NewerKey />
          <Choice
            label={settings.theme}
            value={theme}
            options={themes.map((each) => ({ value: each, text: settings.themes[each] }))}
            onChoose={(next) => prefer({ theme: next })}
          />
          <Choice
            label={settings.unit}
            value={unit}
            options={units.map((each) => ({ value: each, text: settings.units[each] }))}
            onChoose={(next) => prefer({ unit: next })}
          />
          <Choice
            label={settings.hand}
            value={hand}
            options={hands.map((each) => ({ value: each, text: settings.hands[each] }))}
            onChoose={(next) => prefer({ hand: next })}
          />
          <a className="key" href="/trust.html">
            {settings.tablets}
          </a>
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
