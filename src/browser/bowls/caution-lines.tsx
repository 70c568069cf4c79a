/** Cautions: the worst interrupts once a bowl, the others stand as lines. */
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { ofEveryBowl } from '../../../shared/caution-moments.js';
import type { Caution } from '../../../shared/cautions.js';
import { texts } from '../shell/texts.js';

type Said = Pick<Caution, 'code' | 'text' | 'manner'>;

/** The lines, each once. */
export function CautionLines({ cautions }: { cautions: readonly Said[] }) {
  if (cautions.length === 0) return null;
  const texted = [...new Map(cautions.map((each) => [each.text, each])).values()];
  return (
    <section className="cautions" aria-labelledby="cautions">
      <h2 id="cautions">{texts.cautions.title}</h2>
      <ul>
        {texted.map(({ code, text, manner }) => (
          <li key={text} data-code={code} className={manner === 'line' ? '' : 'grave'}>
            {text}
          </li>
        ))}
      </ul>
      <p className="quiet">{texts.cautions.first}</p>
    </section>
  );
}

/** What is said of every mixed bowl, behind one line. */
export function AlwaysCautions() {
  return (
    <details className="always">
      <summary>{texts.cautions.always}</summary>
      <ul>
        {ofEveryBowl.map(({ code, text }) => (
          <li key={code}>{text}</li>
        ))}
      </ul>
    </details>
  );
}

/** The one that interrupts; it goes with "Noted". */
export function InterruptingCaution(props: {
  caution: Said | undefined;
  onNoted: (code: string) => void;
}) {
  const { caution } = props;
  if (!caution) return null;
  return (
    <ModalOverlay className="veil" isOpen isDismissable={false} isKeyboardDismissDisabled>
      <Modal className="interrupting">
        <Dialog role="alertdialog">
          <Heading slot="title">{texts.cautions.title}</Heading>
          <p>{caution.text}</p>
          <p className="quiet">{texts.cautions.first}</p>
          <Button autoFocus className="key strong" onPress={() => props.onNoted(caution.code)}>
            {texts.noted}
          </Button>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
