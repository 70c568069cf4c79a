/** Every topic of published values that can be answered, gathered from one file a group. */
import { allocationTopics } from './allocation-topics.js';
import { alligationTopics } from './alligation-topics.js';
import { costingTopics } from './costing-topics.js';
import { currencyTopics } from './currency-topics.js';
import { hidTopics } from './hid-topics.js';
import { metrologyTopics } from './metrology-topics.js';
import { gtinTopics } from './gtin-topics.js';
import { peroxideTopics } from './peroxide-topics.js';
import { priceTopics } from './price-topics.js';
import { roundingTopics } from './rounding-topics.js';
import { serialTopics } from './serial-topics.js';
import { taxTopics } from './tax-topics.js';
import type { Topic } from './topic.js';
import { unitTopics } from './unit-topics.js';

export const topics: readonly Topic[] = [
  ...unitTopics,
  ...peroxideTopics,
  ...alligationTopics,
  ...roundingTopics,
  ...allocationTopics,
  ...currencyTopics,
  ...taxTopics,
  ...priceTopics,
  ...costingTopics,
  ...gtinTopics,
  ...hidTopics,
  ...serialTopics,
  ...metrologyTopics,
];
