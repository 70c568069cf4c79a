/** Opens the first studio of somebody's own from a page, and makes that page its first bench. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { OpeningView } from '../../../shared/contract/people.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Once } from '../../platform/database/once.js';
import { forStudio, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { BenchesService } from './benches.service.js';
import { OpeningCode } from './opening-code.js';
import type { FirstStudioRequest } from './opening.requests.js';
import { BenchEntity, PersonEntity } from './people.entity.js';
import { hashPin } from './pin.js';
import { SignInService } from './sign-in.service.js';
import { StudioService, supplierPricesIn } from './studio.service.js';

/** Two who open at the same moment wait for each other. */
const ONE_AT_A_TIME = `select pg_advisory_xact_lock(hashtext('bowlworth: the first studio'))`;
const IS_OPEN = 'select own_studio_is_open() as open';

/** Stands in no studio: the question whether there is one is asked from outside of all. */
const nowhere = '00000000-0000-0000-0000-000000000000';

interface FirstStudio {
  readonly personId: string;
  readonly benchId: string;
}

/** What the new device holds from now on. */
export interface OpenedStudio {
  readonly device: string;
  readonly session: string;
}

@Injectable()
export class OpeningService {
  /** Whoever reads the window where the service was started may open a studio from elsewhere. */
  readonly code = new OpeningCode();

  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(StudioService) private readonly studios: StudioService,
    @Inject(BenchesService) private readonly benches: BenchesService,
    @Inject(SignInService) private readonly signIn: SignInService,
  ) {}

  /** Whether a first studio can be opened; `here` is the studio's own computer. */
  async view(here: boolean): Promise<OpeningView> {
    const [row] = await forStudio(this.dataSource, nowhere).query<{ open: boolean }>(IS_OPEN);
    return { possible: row?.open === false, needsCode: !here };
  }

  /**
   * Opens it with its owner and one bench, all or nothing, and signs the owner in on this device.
   * The same request again signs in again: the answer, with its cookies, may have been lost.
   * @throws Problem `wrong_opening_code`, `studio_is_open`, `tax_rate_needed`, `wrong_pin`
   */
  async open(request: FirstStudioRequest, here: boolean): Promise<OpenedStudio> {
    if (!here && !this.code.fits(request.code)) {
      const { triesLeft } = this.code;
      throw new Problem('wrong_opening_code', { triesLeft }, '/code');
    }
    const { id = uuidv7(), name, currency, timeZone, country, supplierPrices, bench } = request;
    const pinHash = await hashPin(request.owner.pin);
    // neither PIN nor code is part of what is kept of the request
    const owner = request.owner.name;
    const told = { id, name, currency, timeZone, country, supplierPrices, bench, owner };
    const { body } = await this.once.answer(id, 'POST /opening', told, (tx) =>
      this.insert(tx, request, pinHash),
    );
    return this.enter(id, body, request);
  }

  private async insert(
    tx: Transaction,
    request: FirstStudioRequest,
    pinHash: string,
  ): Promise<FirstStudio> {
    await tx.query(ONE_AT_A_TIME);
    const [row] = await tx.query<{ open: boolean }>(IS_OPEN);
    if (row?.open !== false) throw new Problem('studio_is_open', {});
    const { name, currency, timeZone, country = null, owner, bench } = request;
    const supplierPrices = supplierPricesIn(request.supplierPrices);
    await this.studios.insert(tx, { name, currency, timeZone, country, supplierPrices });
    const { studioId } = tx;
    const benchId = uuidv7();
    await tx.manager.insert(BenchEntity, { studioId, id: benchId, name: bench, retiredAt: null });
    const personId = uuidv7();
    await tx.manager.insert(PersonEntity, {
      ...{ studioId, id: personId, name: owner.name, role: 'owner', kind: 'employed', pinHash },
      ...{ hourRate: null, commissionShare: null, commissionOn: null, retiredAt: null },
    });
    return { personId, benchId };
  }

  private async enter(
    studioId: string,
    { personId, benchId }: FirstStudio,
    { bench: name, owner: { pin } }: FirstStudioRequest,
  ): Promise<OpenedStudio> {
    const made = await this.benches.makeToken(studioId, { name, role: 'bench', benchId });
    const device: Caller = {
      ...{ studioId, role: 'bench', personId: undefined, benchId, tokenId: made.id, name },
    };
    return { device: made.token, session: await this.signIn.signIn(device, personId, pin) };
  }
}
