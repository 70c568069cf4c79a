/** How a tablet is told to trust this computer: download, steps for its kind, cautions. */
import { texts, type Way } from './texts.js';
import { secureAddress, useTrusted, useWayIn } from './way-in.js';
import { kindOf, type Kind } from './which-device.js';

/** Opened in spite of a warning it looks the same to a page as opened with trust. */
const overHttps = location.protocol === 'https:';

/** The page. */
export function TrustPage() {
  const way = useWayIn();
  const address = secureAddress(way);
  const trusted = useTrusted(address);
  const own = kindOf(navigator.userAgent, navigator.maxTouchPoints);
  const kinds = Object.keys(texts.ways) as Kind[];
  return (
    <main className="trust">
      <h1>{texts.title}</h1>
      <p>{texts.why}</p>
      <p className="standing" role="status">
        {way && address === undefined && texts.off}
        {trusted === true && (overHttps ? texts.overHttps : texts.trusted)}
        {trusted === false && texts.notYet}
      </p>
      {trusted && address !== undefined && (
        <a className="key strong" href={`${address}/${location.hash}`}>
          {texts.open}
        </a>
      )}
      {address !== undefined && (
        <a className={trusted ? 'key' : 'key strong'} href="/root-certificate.crt" download>
          {texts.download}
        </a>
      )}
      <h2>{texts.steps}</h2>
      {[own, ...kinds.filter((kind) => kind !== own)].map((kind) => (
        <Steps key={kind} way={texts.ways[kind]} open={kind === own} />
      ))}
      <p className="quiet">{texts.menus}</p>
      <Check way={way} />
      <h2>{texts.cautions}</h2>
      <ul>
        {texts.caution.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="quiet">{texts.notReached}</p>
    </main>
  );
}

function Steps({ way, open }: { way: Way; open: boolean }) {
  return (
    <details open={open}>
      <summary>{way.name}</summary>
      <ol>
        {way.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <p>
        {texts.back} {way.back}
      </p>
    </details>
  );
}

function Check({ way }: { way: ReturnType<typeof useWayIn> }) {
  if (way === undefined || way.rootFingerprint === null) return null;
  return (
    <>
      <h2>{texts.check}</h2>
      <p>{texts.compare}</p>
      <p className="fingerprint">{way.rootFingerprint}</p>
      <h2>{texts.addresses}</h2>
      <ul>
        {way.urls.map((url) => (
          <li key={url}>{url}</li>
        ))}
      </ul>
    </>
  );
}
