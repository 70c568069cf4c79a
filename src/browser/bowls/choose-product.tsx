/** Asks for one product, over the page. */
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { ProductField } from '../catalogue/product-field.js';
import { texts } from '../shell/texts.js';

const inBowls: readonly string[] = ['care', 'sundry'];

/** The question; closed without an answer by Escape or "Cancel". */
export function ChooseProduct(props: {
  products: readonly ProductView[];
  onChoose: (productId: string) => void;
  onClose: () => void;
}) {
  return (
    <ModalOverlay
      className="veil"
      isOpen
      isDismissable
      onOpenChange={(open) => {
        if (!open) props.onClose();
      }}
    >
      <Modal className="interrupting">
        <Dialog>
          <Heading slot="title">{texts.pour.chooseProduct}</Heading>
          <ProductField
            autoFocus
            label={texts.plan.product}
            products={props.products.filter(({ kind }) => !inBowls.includes(kind))}
            onChoose={props.onChoose}
          />
          <Button className="key" onPress={props.onClose}>
            {texts.cancel}
          </Button>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
