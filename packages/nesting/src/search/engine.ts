import type { MoveEffort } from "./move.js";
import type { Search } from "./search.js";

/**
 * The geometry behind a search. Separation, strips and sheets are the same for every engine.
 *
 * `nofit` knows the exact no-fit region of every pair of shapes: best for few, angular, interlocking kinds in set
 * turns. `outline` compares the outlines themselves, at whatever angle and with nothing to prepare: for kinds without set
 * turns, and for those whose tables would take too long.
 */
export interface Engine {
  /** Tries to move an item to where its weighted overlap is less, noting its new overlaps; returns whether it moved. */
  moveItem(search: Search, item: number, effort: MoveEffort): boolean;
  /** Writes the overlaps of an item with those in the hash into the pair book, where its row is open. */
  noteOverlaps(search: Search, item: number): void;
  /** Moves an item the least way into its box, in another turn if it is too long for the box in its present one. */
  keepInBox(search: Search, item: number): void;
  /** Turns an item at random among its turns. */
  turnAtRandom(search: Search, item: number): void;
  /** The largest x of an item where it lies. */
  rightEnd(search: Search, item: number): number;
  /**
   * Takes out what slack a layout without overlap has towards the left, where the engine can tell how much that is; pauses
   * wherever the caller may stop it.
   */
  press(search: Search): Iterable<void>;
  /** Lays all items out without overlap, if the boxes are long enough. */
  start(search: Search): void;
}
