/**
 * A way to count plates so that the total on one sheet is limited: any layout on a shape holds plates of at most its
 * capacity's weight. So the sheets of any plan have at least the capacity of the whole demand's weight.
 */
export interface Measure {
  /** Of one copy of each kind. */
  readonly weights: readonly number[];
  /** Of each shape of stock. */
  readonly capacities: readonly number[];
  /** One sentence that says what is counted. */
  readonly because: string;
}
