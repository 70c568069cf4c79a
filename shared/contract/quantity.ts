/** A quantity as it travels: a decimal in plain notation and its unit. */

export interface Q<U extends string = 'g' | 'ml' | 'piece'> {
  quantity: string;
  unit: U;
}
